package inventory

import "fmt"

// Flag is something that the record is unsure of and that waits for a person.
type Flag struct {
	About Number `json:"about"`
	What  string `json:"what"`
	Keys  []Key  `json:"events"`
}

// foreignFlags flags the events that only a newer program can read.
func (m *Marks) foreignFlags(about Number) []Flag {
	return flagForeign(about, m.Foreign)
}

func flagForeign(about Number, keys []Key) []Flag {
	if len(keys) == 0 {
		return nil
	}
	what := fmt.Sprintf("%d entries were written by a newer program and are not wholly understood here", len(keys))
	return []Flag{{about, what, keys}}
}

// conflict flags two events that cannot both be right, unless a person said so. A is
// zero where one event can't be right by itself.
func (m *Marks) conflict(about Number, a, b Key, what string) []Flag {
	if m.settled(a, b) {
		return nil
	}
	if a == (Key{}) {
		return []Flag{{about, what, []Key{b}}}
	}
	return []Flag{{about, what, []Key{a, b}}}
}
