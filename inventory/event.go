package inventory

import (
	"cmp"
	"encoding/json"
	"fmt"
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

// MarshalText writes the whole key: "812@c3a9f2d18b774e60".
func (k Key) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "%d@%s", k.Sequence, k.Writer), nil
}

// UnmarshalText reads the whole key.
func (k *Key) UnmarshalText(text []byte) error {
	sequence, writer, found := strings.Cut(string(text), "@")
	if _, err := fmt.Sscanf(sequence, "%d", &k.Sequence); err != nil || !found || writer == "" {
		return fmt.Errorf("%q is not the key of an event", clip(string(text)))
	}
	k.Writer = Writer(writer)
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
	More     int       // how many events of the same action follow this one
	Body     Body
}

// Body says what happened. Each kind of event has one type of body.
type Body interface {
	// Kind is the word in the record: "grind".
	Kind() string
	// Touches names every thing whose state the event has a part in.
	Touches() []Ref
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
	More     int             `json:"more,omitempty"`
	Kind     string          `json:"kind"`
	Body     json.RawMessage `json:"body"`
}

// MarshalJSON writes the event as the journal keeps it, without the line's checksum.
func (e *Event) MarshalJSON() ([]byte, error) {
	body, err := json.Marshal(e.Body)
	if err != nil {
		return nil, err
	}
	return json.Marshal(eventJSON{
		e.Writer, e.Sequence, e.Logical, e.Happened, e.Noted.UTC().Truncate(time.Millisecond),
		e.Who, e.Ticket, e.More, e.Body.Kind(), body,
	})
}

// UnmarshalJSON reads an event. A kind or a body that this version does not know is
// kept as a Foreign body, never refused.
func (e *Event) UnmarshalJSON(data []byte) error {
	var j eventJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return err
	}
	if j.Writer == "" || j.Sequence == 0 || j.Kind == "" {
		return fmt.Errorf("an event without writer, sequence or kind")
	}
	*e = Event{
		Key: Key{j.Writer, j.Sequence}, Logical: j.Logical, Happened: j.Happened, Noted: j.Noted,
		Who: j.Who, Ticket: j.Ticket, More: j.More, Body: decodeBody(j.Kind, j.Body),
	}
	return nil
}

func decodeBody(kind string, raw json.RawMessage) Body {
	body := newBody(kind)
	if body == nil || json.Unmarshal(raw, body) != nil {
		return &Foreign{Name: kind, Raw: raw}
	}
	return body
}
