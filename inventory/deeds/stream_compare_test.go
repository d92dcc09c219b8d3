package deeds

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// compare holds the folded states at an instant against the naive world.
func (s *stream) compare(t time.Time) {
	s.t.Helper()
	w := s.model.worldAt(t)
	for _, wrong := range w.wrong {
		s.t.Errorf("what was accepted can't have happened: %s", wrong)
	}
	s.unflaggedClashes()
	for n, want := range w.runners {
		s.compareRunner(n, want, w.unsafe(n), t)
	}
	for n, want := range w.holders {
		holder := s.holder(n)
		if boot := holder.BootAt(t); boot.Pair != want.on.pair || boot.Pair != 0 && boot.Side != want.side {
			s.t.Errorf("%s hangs on %v, want %v", n.Short(), boot, want.on)
		}
		if got := holder.DoNotSkate(t); got != w.unsafe(n) {
			s.t.Errorf("%s: do not skate %v, want %v", n.Short(), got, w.unsafe(n))
		}
		if got := holder.RunnerAt(t); got != want.runner {
			s.t.Errorf("in %s is %s, want %s", n.Short(), got.Short(), want.runner.Short())
		}
	}
	for n, want := range w.sets {
		set := s.set(n)
		if got := standing.SetState(&s.Ledger, set, t); got != w.stateOf(n) || set.BrokenAt(t) != want.broken {
			s.t.Errorf("%s is %s, broken %v, want %s, %v", n.Short(), got, set.BrokenAt(t), w.stateOf(n), want.broken)
		}
	}
	s.comparePairs(w, t)
	s.comparePlayers(w, t)
}

func (s *stream) comparePairs(w *world, t time.Time) {
	s.t.Helper()
	for _, n := range s.pairs {
		for _, side := range inventory.Sides() {
			want, pair := w.boot(worldSide{n, side}), s.pairOf(n)
			seat := pair.SeatAt(side, t)
			if seat.Runner != want.runner || pair.HolderAt(side, t) != want.holder || seat.Runner != 0 && seat.Set != want.set {
				s.t.Errorf("%s %s: %+v in %s, want %+v", n.Short(), side, seat, pair.HolderAt(side, t).Short(), want)
			}
		}
	}
}

func (s *stream) compareRunner(n inventory.Number, want *worldRunner, unsafe bool, t time.Time) {
	s.t.Helper()
	runner := s.runner(n)
	if got := standing.RunnerState(&s.Ledger, runner, t); got != want.state() {
		s.t.Errorf("%s is %s, want %s", n.Short(), got, want.state())
	}
	if got := runner.SetAt(t); got != want.set {
		s.t.Errorf("%s belongs to %s, want %s", n.Short(), got.Short(), want.set.Short())
	}
	if got := runner.SideAt(t); got != want.side {
		s.t.Errorf("%s is %q, want %q", n.Short(), got, want.side)
	}
	if got := runner.Generation(t); got != want.stints {
		s.t.Errorf("%s is of generation %d, want %d", n.Short(), got, want.stints)
	}
	if got := runner.DoNotSkate(t); got != unsafe {
		s.t.Errorf("%s: do not skate %v, want %v", n.Short(), got, unsafe)
	}
	if wear := runner.WearAt(t); wear.Grinds != want.grinds || wear.Passes != want.passes || wear.UnknownWorks != want.unknown {
		s.t.Errorf("%s has %+v, want %d, %d, %d", n.Short(), wear, want.grinds, want.passes, want.unknown)
	}
}

// unflaggedClashes checks that one careful station contradicts itself nowhere.
func (s *stream) unflaggedClashes() {
	s.t.Helper()
	for _, state := range s.States() {
		for _, what := range inventory.Contradictions(state) {
			s.t.Errorf("%T: %s", state, what)
		}
	}
}
