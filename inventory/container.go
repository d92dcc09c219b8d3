package inventory

import (
	"fmt"
	"slices"
)

// ContainerNoted gives a trunk or a bin its number and its name.
type ContainerNoted struct {
	Container Number `json:"container"`
	Name      string `json:"name"`
}

// Kind is the word in the record.
func (*ContainerNoted) Kind() string { return "container" }

// Touches names the trunk or bin.
func (b *ContainerNoted) Touches() []Ref {
	return append(numbered(b.Container), CounterOf(b.Container))
}

func (b *ContainerNoted) line(Teller, *Event) string {
	return fmt.Sprintf("%s %s is %s", b.Container.Kind(), b.Container.Short(), b.Name)
}

// Container is the folded state of a trunk or a bin. What lies in it is told by the
// places of the pieces, which name it.
type Container struct {
	Number Number `json:"number"`
	Marks
	Event Key    `json:"event"`
	Name  string `json:"name"`
	Twice *Key   `json:"twice,omitempty"` // another trunk or bin under the same number
}

// Apply folds one event.
func (c *Container) Apply(e *Event) {
	c.notice(e)
	switch b := e.Body.(type) {
	case *ContainerNoted:
		if c.Entered() && e.Writer != c.Event.Writer && b.Name != c.Name {
			c.Twice = &e.Key
		}
		c.Event, c.Name = e.Key, b.Name
	default:
		c.Marks.apply(c.Number, e)
	}
}

// Entered tells whether the trunk or bin was entered.
func (c *Container) Entered() bool { return c.Event != Key{} }

// Flags lists what the record is unsure of about this trunk or bin.
func (c *Container) Flags() []Flag {
	flags := c.foreignFlags(c.Number)
	if c.Twice == nil {
		return flags
	}
	return append(flags, c.conflict(c.Number, Key{}, *c.Twice, "this number was given to two trunks or bins; put a new tag on one of them")...)
}

// ContainerName is what a trunk or bin is called.
func ContainerName(v View, n Number) string {
	if container, ok := v.Entity(RefOf(n)).(*Container); ok && container.Name != "" {
		return container.Name
	}
	return n.Short()
}

// Shelf lists the loose pieces of a kind: runners that were never matched into a set,
// and holders on no boot. It is an index: what a piece itself says counts.
type Shelf struct {
	Lots []ShelfLot `json:"lots,omitempty"`
}

// ShelfLot is like pieces that came in together or one after the other.
type ShelfLot struct {
	Model string   `json:"model"`
	Size  int      `json:"size_mm"`
	Side  Side     `json:"side,omitempty"`
	Loose []Number `json:"loose,omitempty"`
	Used  []Number `json:"used,omitempty"` // holders on boots, which may come back
}

// Apply folds one event.
func (s *Shelf) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *StockedIn:
		s.stockIn(b)
	case *SetMade:
		s.take(b.Left, false)
		s.take(b.Right, false)
	case *Riveted:
		if b.Off {
			s.giveBack(b.Holder)
		} else {
			s.take(b.Holder, true)
		}
	case *Damaged:
		s.take(b.Piece, false)
	case *Scrapped:
		for _, n := range b.Pieces {
			s.take(n, false)
		}
	}
	s.Lots = slices.DeleteFunc(s.Lots, func(lot ShelfLot) bool { return len(lot.Loose)+len(lot.Used) == 0 })
}

func (s *Shelf) stockIn(b *StockedIn) {
	at := slices.IndexFunc(s.Lots, func(lot ShelfLot) bool { return lot.Model == b.Model && lot.Size == b.Size && lot.Side == b.Side })
	if at < 0 {
		at, s.Lots = len(s.Lots), append(s.Lots, ShelfLot{Model: b.Model, Size: b.Size, Side: b.Side})
	}
	s.Lots[at].Loose = append(s.Lots[at].Loose, b.Pieces...)
}

// take takes a piece off the shelf, for good or until it comes back.
func (s *Shelf) take(n Number, comesBack bool) {
	for i := range s.Lots {
		lot := &s.Lots[i]
		at := slices.Index(lot.Loose, n)
		if at >= 0 {
			lot.Loose = slices.Delete(lot.Loose, at, at+1)
		}
		if at >= 0 && comesBack {
			lot.Used = append(lot.Used, n)
		}
		if used := slices.Index(lot.Used, n); used >= 0 && !comesBack {
			lot.Used = slices.Delete(lot.Used, used, used+1)
		}
	}
}

func (s *Shelf) giveBack(n Number) {
	for i := range s.Lots {
		if at := slices.Index(s.Lots[i].Used, n); at >= 0 {
			s.Lots[i].Used = slices.Delete(s.Lots[i].Used, at, at+1)
			s.Lots[i].Loose = append(s.Lots[i].Loose, n)
		}
	}
}

// ShelfOf is the shelf of a kind; an empty one where nothing was stocked in yet.
func ShelfOf(v View, kind Kind) *Shelf {
	if shelf, ok := v.Entity(ShelfRef(kind)).(*Shelf); ok {
		return shelf
	}
	return &Shelf{}
}
