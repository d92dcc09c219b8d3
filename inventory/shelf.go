package inventory

import "slices"

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
