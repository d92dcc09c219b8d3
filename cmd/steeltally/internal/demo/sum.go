package demo

import (
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// sum counts what the book has, and tells what the simulator knows.
func (c *club) sum(b *book.Book) (Summary, error) {
	summary := Summary{Events: c.entered, Begin: c.opening, Truth: c.truth()}
	err := b.Read(func(v inventory.View) error {
		v.Each(inventory.KindRunner, func(_ inventory.Number, e inventory.Entity) bool {
			// A stock-in that was taken back leaves a number without a piece.
			if r, ok := e.(*inventory.Runner); ok && r.Entered() {
				summary.Runners++
				if r.StateAt(c.end) == inventory.Removed {
					summary.Removed++
				}
			}
			return true
		})
		return nil
	})
	return summary, err
}

func (c *club) truth() Truth {
	t := Truth{
		Skaters: c.skaters, Keepers: c.keepers, WeakLot: c.stock.weakLot,
		Players: map[inventory.Number]PlayerTruth{}, Runners: map[inventory.Number]RunnerTruth{},
	}
	for _, p := range c.everybody {
		t.Players[p.number] = PlayerTruth{p.wear, p.practice, p.game, p.gone}
		switch {
		case p.story == nil:
		case len(p.story.flagged) > 0:
			t.Open = append(t.Open, p.story.flagged...)
		default:
			t.Wrong = append(t.Wrong, p.number)
		}
	}
	for n, r := range c.runners {
		t.Runners[n] = RunnerTruth{r.steel, r.player, r.unlogged}
	}
	t.Open = append(t.Open, c.doubted()...)
	slices.Sort(t.Open)
	return t
}

// doubted lists the runners with a height that was kept as read.
func (s *scribe) doubted() numbers {
	var doubted numbers
	for _, e := range s.doubts {
		for _, height := range e.Body.(*inventory.Measured).Heights {
			if height.AsRead {
				doubted = append(doubted, height.Runner)
			}
		}
	}
	return doubted
}
