package inventory

import (
	"bytes"
	"encoding/json"
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
