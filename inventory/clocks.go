package inventory

import (
	"fmt"
	"slices"
)

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
