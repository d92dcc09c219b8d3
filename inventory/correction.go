package inventory

import (
	"fmt"
	"strings"
)

// Correction says in words what was wrong: it voids events, or says of events that
// look like a conflict that all of them are right.
type Correction struct {
	Words   string   `json:"words"`
	Voids   []Key    `json:"voids,omitempty"`
	Keeps   []Key    `json:"keeps,omitempty"`
	About   []Number `json:"about,omitempty"`
	Moves   bool     `json:"moves,omitempty"`   // what it voids says where steel is
	Unmakes []Number `json:"unmakes,omitempty"` // what is not in the record any more
	Revives bool     `json:"revives,omitempty"` // it voids a correction, so that what that voided stands again
}

// Kind is the word in the record.
func (*Correction) Kind() string { return "correction" }

// Touches names what the correction is about. The counters are among it, so that a
// number once given is not given again when its stock-in is voided.
func (b *Correction) Touches() []Ref {
	refs := numbered(b.About...)
	for _, n := range b.About {
		refs = append(refs, CounterOf(n))
	}
	return refs
}

func (b *Correction) line(Teller, *Event) string {
	switch {
	case len(b.Voids) > 0 && b.Words != "":
		return fmt.Sprintf("correction, %d taken back: %s", len(b.Voids), b.Words)
	case len(b.Voids) > 0:
		return fmt.Sprintf("correction, %d taken back", len(b.Voids))
	}
	words := b.Words
	if words == "" {
		words = strings.Trim(fmt.Sprint(b.Keeps), "[]")
	}
	if len(b.Keeps) == 1 {
		return "it is right: " + words
	}
	return "both are right: " + words
}

// Voids lists the events that e voids. A correction counts only where it comes
// after what it voids in fold order, and while nothing voids the correction.
func Voids(e *Event) []Key {
	if correction, ok := e.Body.(*Correction); ok {
		return correction.Voids
	}
	return nil
}

// MapKeys puts other keys into the place of those that a body names one by one, as change
// says.
func MapKeys(body Body, change func(Key) Key) {
	list := func(keys []Key) {
		for i, key := range keys {
			keys[i] = change(key)
		}
	}
	switch b := body.(type) {
	case *Correction:
		list(b.Voids)
		list(b.Keeps)
	case *EmergencyDone:
		b.Emergency = change(b.Emergency)
	case *EmergencyClosed:
		b.Emergency = change(b.Emergency)
	case *ClockRight:
		list(b.Doubts)
	case *ClockSet:
		list(b.Doubts)
	}
}

// NamesAny tells whether a body is about one of some entries: it names their keys, or sets
// right the clock by which they were noted.
func NamesAny(body Body, some map[Key]bool) (names bool) {
	if len(some) == 0 {
		return false
	}
	MapKeys(body, func(key Key) Key {
		names = names || some[key]
		return key
	})
	return names || setsAny(body, some)
}

// setsAny tells whether a body moves the time of one of some entries.
func setsAny(body Body, some map[Key]bool) bool {
	set, ok := body.(*ClockSet)
	if !ok {
		return false
	}
	is := clockSet{of: set.Of, stretches: set.stretches()}
	for key, in := range some {
		if in && key.Writer == is.of && is.has(key.Sequence) {
			return true
		}
	}
	return false
}
