package booktest

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// The measures of an invented club's season, for books of a size.
const (
	players        = 28
	grindsOfASet   = 80
	seasonsEvents  = 40_000
	sessionSpacing = 11 * time.Hour
)

// Seasons plays the seasons of an invented club, mostly grinds: the sets wear out and
// are followed by new ones, and every 40,000 events other players come. So a bigger
// book has more players and pieces, and not more events of each.
type Seasons struct {
	now    time.Time
	events int
	turn   int
	given  map[inventory.Kind]int
	sets   map[int]*rink
}

// NewSeasons starts at the first practice.
func NewSeasons() *Seasons {
	return &Seasons{now: Noted(), given: map[inventory.Kind]int{}, sets: map[int]*rink{}}
}

// Play records about so many events.
func (s *Seasons) Play(record book.Recorder, events int) error {
	for until := s.events + events; s.events < until; {
		if err := s.Step(record); err != nil {
			return err
		}
	}
	return nil
}

// Step records one player's turn at the wheel.
func (s *Seasons) Step(record book.Recorder) error {
	if s.turn == players {
		s.turn = 0
		s.now = s.now.Add(sessionSpacing)
	}
	s.turn++
	return s.visit(record, s.events/seasonsEvents*players+s.turn)
}

// rink is what one player skates on.
type rink struct {
	player, pair, set, left, right inventory.Number
	grinds                         int
}

// visit is one player's turn at the wheel.
func (s *Seasons) visit(record book.Recorder, who int) error {
	r := s.sets[who]
	if r == nil {
		r = &rink{player: s.next(inventory.KindPlayer), pair: s.next(inventory.KindPair), grinds: grindsOfASet}
		s.sets[who] = r
		noted := &inventory.PlayerNoted{Player: r.player, Name: "Tove Markvard", Position: "defence", Sweater: 2 + who%players}
		if err := s.note(record, noted, &inventory.PairNoted{Pair: r.pair, Player: r.player, Role: "first"}); err != nil {
			return err
		}
	}
	if r.grinds >= grindsOfASet {
		if err := s.change(record, r); err != nil {
			return err
		}
	}
	r.grinds++
	passes := 5
	work := &inventory.Ground{Player: r.player, Pair: r.pair, Set: r.set, Work: "grind", Hollow: &inventory.Cut{Radius: 12.7}}
	work.Left = &inventory.Passes{Runner: r.left, Passes: &passes}
	work.Right = &inventory.Passes{Runner: r.right, Passes: &passes}
	return s.note(record, work)
}

// change puts new steel on.
func (s *Seasons) change(record book.Recorder, r *rink) error {
	var bodies []inventory.Body
	if r.set != 0 {
		out := &inventory.TakenOut{Player: r.player, Pair: r.pair, Set: r.set, Reason: "low"}
		out.Left, out.Right = &inventory.Removal{Runner: r.left, Retired: true}, &inventory.Removal{Runner: r.right, Retired: true}
		bodies = append(bodies, out)
	}
	r.left, r.right, r.set, r.grinds = s.next(inventory.KindRunner), s.next(inventory.KindRunner), s.next(inventory.KindSet), 0
	in := &inventory.PutIn{Player: r.player, Pair: r.pair, Set: r.set}
	in.Left, in.Right = &inventory.Fit{Runner: r.left}, &inventory.Fit{Runner: r.right}
	return s.note(record, append(bodies,
		&inventory.StockedIn{Pieces: []inventory.Number{r.left, r.right}, Model: "Model R", Size: 280},
		&inventory.SetMade{Set: r.set, Player: r.player, Letter: "A", Left: r.left, Right: r.right}, in)...)
}

func (s *Seasons) next(kind inventory.Kind) inventory.Number {
	s.given[kind]++
	n, err := inventory.NewNumber(kind, 1, s.given[kind])
	if err != nil {
		panic(err) // the numbers run out at a million of a kind
	}
	return n
}

func (s *Seasons) note(record book.Recorder, bodies ...inventory.Body) error {
	drafts := make([]inventory.Draft, len(bodies))
	for i, body := range bodies {
		drafts[i] = inventory.Draft{Happened: inventory.At(s.now), Body: body}
	}
	s.events += len(drafts)
	stamp := book.Stamp{Who: "Ylva", Noted: s.now.Add(time.Minute)}
	_, err := record(stamp, func(inventory.View) ([]inventory.Draft, error) { return drafts, nil })
	return err
}
