package inventory

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Writer is the random id of one book folder on one machine: 16 hexadecimal digits.
type Writer string

// Key is what an event is known by: its writer and the writer's own sequence, from 1.
type Key struct {
	Writer   Writer
	Sequence uint64
}

// String is the key as people see it: "812@c3a9" (the writer cut to four digits).
func (k Key) String() string {
	return fmt.Sprintf("%d@%.4s", k.Sequence, string(k.Writer))
}

// MarshalText writes the whole key: "812@c3a9f2d18b774e60"; the zero Key is empty.
func (k Key) MarshalText() ([]byte, error) {
	if k == (Key{}) {
		return nil, nil
	}
	return fmt.Appendf(nil, "%d@%s", k.Sequence, k.Writer), nil
}

// UnmarshalText reads the whole key.
func (k *Key) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*k = Key{}
		return nil
	}
	count, writer, _ := strings.Cut(string(text), "@")
	sequence, err := strconv.ParseUint(count, 10, 64)
	if err != nil || writer == "" {
		return fmt.Errorf("%q is not the key of an event", Clip(string(text)))
	}
	k.Sequence, k.Writer = sequence, Writer(writer)
	return nil
}

// Event is one thing that happened, as it was noted. It is never changed; a later
// Correction may void it.
type Event struct {
	Key
	Logical  uint64    // highest logical time seen when it was noted, plus one
	Happened When      // when it happened, as vague as it is known
	Noted    time.Time // when it was written down
	Who      string    // who wrote it down
	Ticket   string    // the caller's own key, so that a retry is recognised
	Asked    string    // a fingerprint of what was asked with that key; empty: not known
	More     int       // how many events of the same action follow this one
	Body     Body
	newer    *newer
}

// Body says what happened. Each kind of event has one type of body.
type Body interface {
	// Kind is the word in the record: "grind".
	Kind() string
	// Touches names every thing whose state the event has a part in.
	Touches() []Ref
	// line says it in words.
	line(t Teller, e *Event) string
}

// Draft is what a decision wants recorded, before the book stamps it.
type Draft struct {
	Happened When
	Body     Body
}

// CompareOrder sorts events in the order in which they are folded.
func CompareOrder(a, b *Event) int {
	return cmp.Or(
		cmp.Compare(a.Logical, b.Logical),
		cmp.Compare(a.Writer, b.Writer),
		cmp.Compare(a.Sequence, b.Sequence),
	)
}

// eventJSON is an event's one form outside of memory.
type eventJSON struct {
	Writer   Writer          `json:"writer"`
	Sequence uint64          `json:"seq"`
	Logical  uint64          `json:"logical"`
	Happened When            `json:"happened"`
	Noted    time.Time       `json:"noted"`
	Who      string          `json:"who,omitempty"`
	Ticket   string          `json:"ticket,omitempty"`
	Asked    string          `json:"asked,omitempty"`
	More     int             `json:"more,omitempty"`
	Kind     string          `json:"kind"`
	Body     json.RawMessage `json:"body"`
}

// lineJSON is an event as it stands in a line of the journal.
type lineJSON struct {
	eventJSON
	Checksum string `json:"crc32c"`
}

// MarshalJSON writes the event as the journal keeps it, without the line's checksum.
func (e *Event) MarshalJSON() ([]byte, error) {
	body, err := e.marshalBody()
	if err != nil {
		return nil, err
	}
	object, err := json.Marshal(eventJSON{
		e.Writer, e.Sequence, e.Logical, e.Happened, e.Noted.UTC().Truncate(time.Millisecond),
		e.Who, e.Ticket, e.Asked, e.More, e.Body.Kind(), body,
	})
	if err != nil || e.newer == nil {
		return object, err
	}
	return appendFields(object, e.newer.fields), nil
}

func (e *Event) marshalBody() (json.RawMessage, error) {
	if e.newer != nil && e.newer.body != nil {
		return e.newer.body, nil
	}
	return json.Marshal(e.Body)
}

// UnmarshalJSON reads an event, also with the checksum of its line. A kind, a body or a
// field that this version does not know is kept, never refused.
func (e *Event) UnmarshalJSON(data []byte) error {
	var j lineJSON
	var fields map[string]json.RawMessage
	if !decodeStrictly(data, &j) {
		j = lineJSON{}
		if err := json.Unmarshal(data, &j); err != nil {
			return err
		}
		fields = unknownFields(data)
	}
	if j.Writer == "" || j.Sequence == 0 || j.Kind == "" {
		return fmt.Errorf("an event without writer, sequence or kind")
	}
	if year := j.Noted.UTC().Year(); year < 0 || year > 9999 {
		return fmt.Errorf("an event noted in the year %d", year)
	}
	*e = Event{
		Key: Key{j.Writer, j.Sequence}, Logical: j.Logical, Happened: j.Happened, Noted: j.Noted,
		Who: j.Who, Ticket: j.Ticket, Asked: j.Asked, More: j.More,
	}
	var more json.RawMessage
	if e.Body, more = decodeBody(j.Kind, j.Body); fields != nil || more != nil {
		e.newer = &newer{fields, more}
	}
	return nil
}
