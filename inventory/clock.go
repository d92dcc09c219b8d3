package inventory

import (
	"fmt"
	"strings"
	"time"
)

// ClockDoubted says that the entries before it of the same action were noted at a time
// that lies far from what was noted before, and that nobody was asked about it.
type ClockDoubted struct {
	Entries int  `json:"entries"` // so many before it
	Last    When `json:"last"`    // when the entry before these was noted
}

// Kind is the word in the record.
func (*ClockDoubted) Kind() string { return "clock-doubted" }

// Touches names the clocks.
func (*ClockDoubted) Touches() []Ref { return []Ref{ClocksRef} }

// FirstOf is the first entry that is meant, by the key of what says so.
func (b *ClockDoubted) FirstOf(key Key) Key {
	if entries := uint64(max(b.Entries, 0)); entries < key.Sequence {
		key.Sequence -= entries
	}
	return key
}

func (b *ClockDoubted) line(t Teller, e *Event) string {
	zone := ClubOf(t.View).Location()
	return fmt.Sprintf("the clock was in doubt: it said %s, and the entry before was noted on %s", At(e.Noted).Say(zone), b.Last.Say(zone))
}

// ClockRight says that a clock that was in doubt stood right.
type ClockRight struct {
	Doubts []Key `json:"doubts"`
}

// Kind is the word in the record.
func (*ClockRight) Kind() string { return "clock-right" }

// Touches names the clocks.
func (*ClockRight) Touches() []Ref { return []Ref{ClocksRef} }

func (*ClockRight) line(Teller, *Event) string { return "the clock stood right" }

// ClockSet says that a writer's clock stood wrong when it noted some entries, and by how
// much: what has its time from that clock happened so much later, or earlier. Times that
// a person typed are none of these.
type ClockSet struct {
	Of      Writer `json:"of"`
	Entries []Run  `json:"entries"` // in order
	By      int64  `json:"by"`      // seconds, to be added
	Doubts  []Key  `json:"doubts,omitempty"`
}

// Kind is the word in the record.
func (*ClockSet) Kind() string { return "clock-set" }

// Touches names the clocks. What else is another by it is folded anew from its own entries.
func (*ClockSet) Touches() []Ref { return []Ref{ClocksRef, ClockSetsRef} }

func (b *ClockSet) line(Teller, *Event) string {
	entries := "1 entry"
	if count := b.entered(); count != 1 {
		entries = fmt.Sprintf("%d entries", count)
	}
	return fmt.Sprintf("the clock stood wrong: the %s that it dated happened %s", entries, SayShift(time.Duration(b.By)*time.Second))
}

// Run is some entries of a writer that follow each other.
type Run struct {
	First uint64 `json:"first"` // its sequence
	Count uint64 `json:"count"`
}

// entered counts the entries that a person made: not those that say that the clock was in
// doubt.
func (b *ClockSet) entered() (count uint64) {
	for _, s := range b.stretches() {
		count += s.last - s.first + 1
		for _, doubt := range b.Doubts {
			if doubt.Writer == b.Of && s.first <= doubt.Sequence && doubt.Sequence <= s.last {
				count--
			}
		}
	}
	return count
}

// SayShift says how much later or earlier something was: "2048 days 3 h earlier".
func SayShift(by time.Duration) string {
	word := "later"
	if by < 0 {
		by, word = -by, "earlier"
	}
	const day = 24 * time.Hour
	days, rest := by/day, by%day
	switch {
	case days == 0:
		return fmt.Sprintf("%s %s", sayRest(rest), word)
	case rest == 0:
		return fmt.Sprintf("%d days %s", days, word)
	}
	return fmt.Sprintf("%d days and %s %s", days, sayRest(rest), word)
}

// sayRest writes what is less than a day: "3h20m".
func sayRest(rest time.Duration) string {
	text := strings.TrimSuffix(rest.String(), "0s")
	if strings.HasSuffix(text, "h0m") {
		return strings.TrimSuffix(text, "0m")
	}
	if text == "" || text[len(text)-1] >= '0' && text[len(text)-1] <= '9' {
		return rest.String()
	}
	return text
}
