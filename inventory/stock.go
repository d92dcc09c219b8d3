package inventory

import (
	"fmt"
	"time"

	"steeltally/geometry"
)

// StockedIn brings runners or holders into the club's stock.
type StockedIn struct {
	Pieces    []Number             `json:"pieces"`
	Model     string               `json:"model"`
	Size      int                  `json:"size_mm"` // length as the maker marks it
	Side      Side                 `json:"side,omitempty"`
	Thickness geometry.Millimetre  `json:"thickness_mm,omitempty"`
	Height    *geometry.Millimetre `json:"height_mm,omitempty"`
	Lot       string               `json:"lot,omitempty"`
	Order     string               `json:"order,omitempty"`
	Place     *Place               `json:"place,omitempty"`
}

// Kind is the word in the record.
func (*StockedIn) Kind() string { return "stockin" }

// Touches names the pieces, their model and the shelf that they lie on.
func (b *StockedIn) Touches() []Ref {
	refs := append(numbered(b.Pieces...), ModelRef(b.Model))
	refs = append(refs, shelvesOf(b.Pieces...)...)
	for _, n := range b.Pieces {
		refs = append(refs, CounterOf(n))
	}
	return refs
}

func (b *StockedIn) line(Teller, *Event) string {
	line := fmt.Sprintf("stock in: %s %d", b.Model, b.Size)
	if b.Height != nil {
		line += ", " + b.Height.String() + " high"
	}
	if b.Lot != "" {
		line += ", lot " + b.Lot
	}
	return line
}

// Entered tells whether a stock-in that stands brought the piece into the record.
func (s *Stock) Entered() bool { return s.Event != Key{} }

// Stock is what is known of a runner or holder since it came into the club.
type Stock struct {
	Since     When                 `json:"since"`
	Event     Key                  `json:"event"`
	Model     string               `json:"model"`
	Size      int                  `json:"size_mm"`
	Side      Side                 `json:"side,omitempty"`
	Thickness geometry.Millimetre  `json:"thickness_mm,omitempty"`
	Height    *geometry.Millimetre `json:"height_mm,omitempty"`
	Lot       string               `json:"lot,omitempty"`
	Order     string               `json:"order,omitempty"`
	Twice     *Key                 `json:"twice,omitempty"` // a second stock-in under the same number
}

// stockIn keeps the first stock-in; a second under the same number is a conflict.
func (s *Stock) stockIn(e *Event, b *StockedIn) {
	if s.Event.Sequence != 0 {
		s.Twice = &e.Key
		return
	}
	*s = Stock{
		Since: e.Happened, Event: e.Key, Model: b.Model, Size: b.Size, Side: b.Side,
		Thickness: b.Thickness, Height: b.Height, Lot: b.Lot, Order: b.Order,
	}
}

func (s *Stock) flags(about Number, m *Marks) []Flag {
	if s.Twice == nil {
		return nil
	}
	return m.conflict(about, s.Event, *s.Twice, "this number was given to two pieces; put a new tag on one of them")
}

// Place is where a piece lies, in the club's own words.
type Place struct {
	Name string `json:"name"`
	Slot string `json:"slot,omitempty"`
}

// String is the place in one phrase: "trunk 3, slot 7".
func (p Place) String() string {
	if p.Slot == "" {
		return p.Name
	}
	return p.Name + ", slot " + p.Slot
}

// Placed puts pieces at a place.
type Placed struct {
	Pieces []Number `json:"pieces"`
	Place  Place    `json:"place"`
}

// Kind is the word in the record.
func (*Placed) Kind() string { return "put" }

// Touches names the pieces.
func (b *Placed) Touches() []Ref { return numbered(b.Pieces...) }

func (b *Placed) line(Teller, *Event) string { return "put at " + b.Place.String() }

// Place is where the piece lies at an instant; the zero Place is unknown.
func (m *Marks) Place(at time.Time) Place {
	place, _ := m.Places.At(at)
	return place
}

// shelvesOf names the shelves that pieces can lie on.
func shelvesOf(pieces ...Number) []Ref {
	var refs []Ref
	for _, n := range pieces {
		if kind := n.Kind(); kind == KindRunner || kind == KindHolder {
			refs = append(refs, ShelfRef(kind))
		}
	}
	return refs
}

// Scrapped is the end of pieces: thrown away, as steel for melting or as rubbish.
type Scrapped struct {
	Pieces []Number `json:"pieces"`
	Reason string   `json:"reason,omitempty"`
}

// Kind is the word in the record.
func (*Scrapped) Kind() string { return "scrap" }

// Touches names the pieces, and the shelves that they may have lain on.
func (b *Scrapped) Touches() []Ref { return append(numbered(b.Pieces...), shelvesOf(b.Pieces...)...) }

func (b *Scrapped) line(Teller, *Event) string {
	return withNote("scrapped: "+sayPieces(b.Pieces), b.Reason)
}

// ScrappedAt tells whether the piece was thrown away by an instant.
func (m *Marks) ScrappedAt(at time.Time) bool { return len(m.Scraps.Until(at)) > 0 }
