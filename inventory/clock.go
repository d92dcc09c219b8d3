package inventory

import (
	"cmp"
	"fmt"
	"slices"
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

// ClocksRef names what is known of the machines' clocks.
const ClocksRef Ref = "clocks"

// ClockSetsRef names how clocks were set right. It has no state: whoever reads an event
// reads these first, and they are few, where doubts can be many.
const ClockSetsRef Ref = "clock-sets"

// Clocks is where a clock was in doubt when something was noted.
type Clocks struct {
	Doubts  []ClockDoubt `json:"doubts,omitempty"`
	Settled []Key        `json:"settled,omitempty"`
	Foreign []Key        `json:"foreign,omitempty"` // events that this version can't read
}

// ClockDoubt is an entry that was noted at a time far from that of the entry before.
type ClockDoubt struct {
	Event Key  `json:"event"` // that says so
	Entry Key  `json:"entry"` // the first one that was noted then
	Noted When `json:"noted"`
	Last  When `json:"last"` // when the entry before was noted
}

// ClocksOf is what a view knows of the clocks.
func ClocksOf(v View) *Clocks {
	if clocks, ok := v.Entity(ClocksRef).(*Clocks); ok {
		return clocks
	}
	return &Clocks{}
}

// Apply folds one event.
func (c *Clocks) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *ClockDoubted:
		c.Doubts = append(c.Doubts, ClockDoubt{e.Key, b.FirstOf(e.Key), At(e.Noted), b.Last})
	case *ClockRight:
		c.Settled = append(c.Settled, b.Doubts...)
	case *ClockSet:
		c.Settled = append(c.Settled, b.Doubts...)
	case *Foreign:
		c.Foreign = append(c.Foreign, e.Key)
	}
}

// Open lists the doubts that nobody has settled.
func (c *Clocks) Open() []ClockDoubt {
	return slices.DeleteFunc(slices.Clone(c.Doubts), func(d ClockDoubt) bool { return slices.Contains(c.Settled, d.Event) })
}

// Flags lists what the record is unsure of; their About is zero.
func (c *Clocks) Flags() []Flag {
	flags := flagForeign(0, c.Foreign)
	for _, d := range c.Open() {
		flags = append(flags, Flag{0, fmt.Sprintf("entry %s was noted under a clock in doubt", d.Entry), []Key{d.Entry}})
	}
	return flags
}

// DoubtedAt tells whether an entry is the first that was noted under a clock that is in
// doubt still.
func (c *Clocks) DoubtedAt(entry Key) bool {
	return slices.ContainsFunc(c.Open(), func(d ClockDoubt) bool { return d.Entry == entry })
}

// ClockSets are how clocks were set right, as far as that counts: nothing voids it.
type ClockSets struct{ all []clockSet }

// clockSet is one of them; its stretches of sequences are in order and apart.
type clockSet struct {
	of        Writer
	by        time.Duration
	stretches []stretch
}

type stretch struct{ first, last uint64 }

// mostSet is more than a clock that shows one of the years of a record can be wrong by.
const mostSet = (MostYear + 1 - LeastYear) * 366 * 24 * 3600 // seconds

// Add adds one that counts.
func (s *ClockSets) Add(b *ClockSet) {
	if -mostSet <= b.By && b.By <= mostSet {
		s.all = append(s.all, clockSet{b.Of, time.Duration(b.By) * time.Second, b.stretches()})
	}
}

// stretches are the sequences in order; what is out of order is left out.
func (b *ClockSet) stretches() []stretch {
	var list []stretch
	next := uint64(1)
	for _, run := range b.Entries {
		last := run.First + run.Count - 1
		if run.First >= next && run.Count > 0 && last >= run.First && last < ^uint64(0) {
			next = last + 1
			list = append(list, stretch{run.First, last})
		}
	}
	return list
}

func (c *clockSet) has(sequence uint64) bool {
	i, found := slices.BinarySearchFunc(c.stretches, sequence, func(s stretch, sequence uint64) int { return cmp.Compare(s.first, sequence) })
	return found || i > 0 && sequence <= c.stretches[i-1].last
}

// By is how much later an entry was noted, and happened, than its writer's clock said.
func (s *ClockSets) By(key Key) (by time.Duration) {
	for i := range s.all {
		if s.all[i].of == key.Writer && s.all[i].has(key.Sequence) {
			by += s.all[i].by
		}
	}
	return by
}

// Timed is an event at the time at which it happened by a right clock. The event itself is
// not changed.
func (s *ClockSets) Timed(e *Event) *Event {
	by := s.By(e.Key)
	if by == 0 {
		return e
	}
	timed := *e
	timed.Noted, timed.Happened = e.Noted.Add(by), e.Happened.later(by)
	if !timed.InYears() {
		return e
	}
	return &timed
}

// later is the time moved by a while; an unknown one stays unknown.
func (w When) later(by time.Duration) When {
	if w.Unknown() {
		return w
	}
	return When{w.Start.Add(by), w.End.Add(by)}
}

// Each calls visit with the sequences that are meant, up to the writer's last one, until
// visit fails.
func (b *ClockSet) Each(last uint64, visit func(sequence uint64) error) error {
	for _, s := range b.stretches() {
		for sequence := s.first; sequence <= min(s.last, last); sequence++ {
			if err := visit(sequence); err != nil {
				return err
			}
		}
	}
	return nil
}
