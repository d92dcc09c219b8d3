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
