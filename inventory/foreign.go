package inventory

import (
	"bytes"
	"encoding/json"
	"io"
	"maps"
	"slices"
)

// Foreign is the body of an event that this version cannot read: its kind comes
// from a newer program. It is carried as it came and flags every piece it names.
type Foreign struct {
	Name string
	Raw  json.RawMessage
}

// Kind is the word that the newer program wrote.
func (f *Foreign) Kind() string { return f.Name }

// MarshalJSON writes the body exactly as it came.
func (f *Foreign) MarshalJSON() ([]byte, error) {
	if len(f.Raw) == 0 {
		return []byte("null"), nil
	}
	return f.Raw, nil
}

// Touches finds the piece numbers anywhere in the body, with their counters, since it
// may have given them; where there is none it names the club.
func (f *Foreign) Touches() []Ref {
	var refs []Ref
	decoder := json.NewDecoder(bytes.NewReader(f.Raw))
	for {
		token, err := decoder.Token()
		if err != nil {
			break
		}
		text, isText := token.(string)
		if ref := Ref(text); isText && ref.Number() != 0 {
			refs = append(refs, ref, CounterOf(ref.Number()))
		}
	}
	if len(refs) == 0 {
		return []Ref{ClubRef}
	}
	return refs
}

// newer is what a newer program wrote into an event and this version cannot read. It
// is written again as it came, so that nothing is lost on the way through this version.
type newer struct {
	fields map[string]json.RawMessage // of the event itself
	body   json.RawMessage            // the whole body, where it has such fields; else nil
}

// Newer tells whether a newer program wrote more into the event than this version reads.
func (e *Event) Newer() bool { return e.newer != nil }

// decodeStrictly reads JSON that has no fields but those of value; it tells whether
// that could be done.
func decodeStrictly(data []byte, value any) bool {
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if decoder.Decode(value) != nil {
		return false
	}
	_, err := decoder.Token()
	return err == io.EOF
}

// decodeBody reads a body. What this version cannot read at all is a Foreign body;
// where it has fields of a newer version, more is the whole of it.
func decodeBody(kind string, raw json.RawMessage) (body Body, more json.RawMessage) {
	if len(raw) == 0 {
		raw = json.RawMessage("null")
	}
	foreign := &Foreign{Name: kind, Raw: raw}
	body = NewBody(kind)
	if body == nil || raw[0] != '{' {
		return foreign, nil
	}
	if decodeStrictly(raw, body) {
		return body, nil
	}
	body = NewBody(kind)
	if json.Unmarshal(raw, body) != nil {
		return foreign, nil
	}
	return body, raw
}

// unknownFields are the fields of an event that this version does not know, or nil.
func unknownFields(data []byte) map[string]json.RawMessage {
	var fields map[string]json.RawMessage
	if json.Unmarshal(data, &fields) != nil {
		return nil
	}
	maps.DeleteFunc(fields, func(name string, _ json.RawMessage) bool { return slices.Contains(eventFields, name) })
	if len(fields) == 0 {
		return nil
	}
	return fields
}

// eventFields are the fields of eventJSON, and that with which a journal ends its lines.
var eventFields = []string{"writer", "seq", "logical", "happened", "noted", "who", "ticket", "asked", "more", "kind", "body", lineChecksum}

// lineChecksum is the field that belongs to the line in a journal, not to the event.
const lineChecksum = "crc32c"

// appendFields adds fields to a JSON object, in order of name.
func appendFields(object []byte, fields map[string]json.RawMessage) []byte {
	object = object[:len(object)-1]
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		quoted, _ := json.Marshal(name)
		object = append(append(append(append(object, ','), quoted...), ':'), fields[name]...)
	}
	return append(object, '}')
}
