package demo

import (
	"fmt"
	"slices"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// scribe enters what people do, one deed after another, through the same decisions as
// a person's entries. After a refusal, which is a fault of the simulator, it enters
// nothing more and keeps the error.
type scribe struct {
	record  book.Recorder
	clock   time.Time
	writer  string // who stands at the bench
	entered int
	err     error
	sets    map[inventory.Number]*set // in use
	runners map[inventory.Number]*runner
	doubts  []inventory.Event // heights that were kept as read and wait for a word
}

func newScribe() *scribe {
	return &scribe{sets: map[inventory.Number]*set{}, runners: map[inventory.Number]*runner{}}
}

func (s *scribe) now() time.Time { return s.clock }

// turnTo lets time pass until a moment; it never goes back.
func (s *scribe) turnTo(at time.Time) {
	if at.After(s.clock) {
		s.clock = at
	}
}

// pass lets a while pass.
func (s *scribe) pass(d time.Duration) { s.clock = s.clock.Add(d) }

// enter records a deed that is done now.
func (s *scribe) enter(deed deeds.Deed) []inventory.Event {
	return s.enterAt(inventory.At(s.clock), deed)
}

// enterAt records now what was done then.
func (s *scribe) enterAt(then inventory.When, deed deeds.Deed) []inventory.Event {
	if s.err != nil {
		return nil
	}
	moment, err := deeds.NewMoment(then, s.clock)
	if err != nil {
		s.fail(deed, err)
		return nil
	}
	events, err := s.record(book.Stamp{Who: s.writer, Noted: s.clock}, func(v inventory.View) ([]inventory.Draft, error) {
		outcome, err := deed.Decide(v, moment)
		return outcome.Drafts, err
	})
	if err != nil {
		s.fail(deed, err)
		return nil
	}
	s.entered += len(events)
	s.follow(events)
	return events
}

// fail keeps the first error, with the decision's hint.
func (s *scribe) fail(deed deeds.Deed, err error) {
	s.err = fmt.Errorf("the demonstration stopped on %s at %T: %w (%s)", s.clock.Format("2 Jan 2006 15:04"), deed, err, desk.HintOf(err))
}

// follow keeps what corrections will need: each used set's events, each runner's
// readings, and which runner is on which side of its set.
func (s *scribe) follow(events []inventory.Event) {
	for _, e := range events {
		switch b := e.Body.(type) {
		case *inventory.Ground:
			s.log(b.Set, e)
		case *inventory.PutIn:
			s.log(b.Set, e)
		case *inventory.TakenOut:
			s.log(b.Set, e)
		case *inventory.Riveted:
			s.log(b.Set, e)
		case *inventory.Measured:
			s.log(b.Set, e)
			s.readings(e, b)
		case *inventory.SetMade:
			s.match(b)
			s.log(b.Set, e)
		case *inventory.Correction:
			s.strike(b)
		}
	}
}

// match keeps the sides of a set's runners; a new set is added by whoever made it.
func (s *scribe) match(b *inventory.SetMade) {
	left, right := s.runners[b.Left], s.runners[b.Right]
	if left == nil || right == nil {
		return
	}
	left.side, right.side = inventory.Left, inventory.Right
	if set := s.sets[b.Set]; set != nil {
		set.left, set.right = left, right
	}
}

func (s *scribe) log(n inventory.Number, e inventory.Event) {
	if set := s.sets[n]; set != nil {
		set.entries = append(set.entries, e)
	}
}

func (s *scribe) readings(e inventory.Event, b *inventory.Measured) {
	if slices.ContainsFunc(b.Heights, func(h inventory.Height) bool { return h.AsRead }) {
		s.doubts = append(s.doubts, e)
	}
	for _, height := range b.Heights {
		if r := s.runners[height.Runner]; r != nil && height.Middle != nil {
			r.readings = append(r.readings, reading{e.Key, b.Reference, *height.Middle})
		}
	}
}

// strike takes out what a correction voids.
func (s *scribe) strike(b *inventory.Correction) {
	s.doubts = slices.DeleteFunc(s.doubts, func(e inventory.Event) bool {
		return slices.Contains(b.Voids, e.Key) || slices.Contains(b.Keeps, e.Key)
	})
	for _, n := range b.About {
		if r := s.runners[n]; r != nil {
			r.readings = slices.DeleteFunc(r.readings, func(r reading) bool { return slices.Contains(b.Voids, r.key) })
		}
		if set := s.sets[n]; set != nil {
			set.entries = slices.DeleteFunc(set.entries, func(e inventory.Event) bool { return slices.Contains(b.Voids, e.Key) })
		}
	}
}

// bodyOf is the first body of a type among some events; an empty one where nothing
// was recorded.
func bodyOf[B any, P interface {
	*B
	inventory.Body
}](events []inventory.Event) P {
	for _, e := range events {
		if body, ok := e.Body.(P); ok {
			return body
		}
	}
	return new(B)
}
