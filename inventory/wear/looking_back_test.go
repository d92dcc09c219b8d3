package wear

import (
	"math"
	"testing"
)

func TestSelfCheckCountsWhatCanBeDecided(t *testing.T) {
	held := PastForecast{Due: .3, Reached: true}
	early := PastForecast{Due: .05, Reached: true}
	outlasted := PastForecast{Due: .95}
	undecided := PastForecast{Due: .3}
	var s SelfCheck
	for _, p := range []PastForecast{early, early, held, undecided, outlasted, held, undecided, held} {
		s.count(p)
	}
	if s != (SelfCheck{Checked: 6, Held: 3}) {
		t.Errorf("%+v, want 3 of 6", s)
	}
}

func TestHalfLifeAndWhatCameOfIt(t *testing.T) {
	s := newRunner(Reading{60, 19.8}, Reading{130, 18.4}, Reading{160, 17.9}, Reading{250, 15.9}, Reading{300, 15.1})
	i, ok := HalfLife(s, 15.5)
	if !ok || i != 2 {
		t.Fatalf("reading %d (%v), want the third: 18.25 is half way", i, ok)
	}
	if got := PassesUntil(s, i, 15.5); !got.Reached || math.Abs(got.Passes-115) > 1e-9 {
		t.Errorf("%+v, want 115 passes: half of the way from 250 to 300", got)
	}
	if _, ok := HalfLife(newRunner(Reading{60, 19.8}), 15.5); ok {
		t.Error("a reading above half way was taken")
	}
	if _, ok := HalfLife(newRunner(Reading{300, 15.4}), 15.5); ok {
		t.Error("a reading below the change height was taken")
	}
}

func TestPassesUntilNotReached(t *testing.T) {
	close := newRunner(Reading{100, 19}, Reading{250, 16})
	if got := PassesUntil(close, 0, 15.5); !got.Reached || math.Abs(got.Passes-175) > 1e-9 {
		t.Errorf("%+v, want 175 passes: .5 mm more at .02 a pass", got)
	}
	far := newRunner(Reading{100, 19}, Reading{200, 17})
	if got := PassesUntil(far, 0, 15.5); got != (Crossing{Passes: 100}) {
		t.Errorf("%+v, want not reached in 100", got)
	}
}

// Where a runner came to its change height is uncertain by the caliper's error, over
// the loss per pass: half way between two readings by .1 mm/√2, at .028 mm a pass.
func TestCrossingIsAsSureAsTheCaliper(t *testing.T) {
	s := Segment{CaliperVariance: .01, Readings: []Reading{{0, 18}, {100, 16.9}, {150, 15.5}}}
	s.New.Value, s.New.Variance = 21, .09
	got := PassesUntil(s, 0, 16.2)
	if want := .01 / 2 / (.028 * .028); !got.Reached || math.Abs(got.Passes-125) > 1e-9 || math.Abs(got.Variance-want) > 1e-9 {
		t.Errorf("%+v, want 125 passes with a variance of %v", got, want)
	}
	exact := PassesUntil(s, 0, 16.9)
	if want := .01 / (.011 * .011); math.Abs(exact.Variance-want) > 1e-9 {
		t.Errorf("at a reading: variance %v, want the reading's own, %v", exact.Variance, want)
	}
}

func TestBasis(t *testing.T) {
	for _, c := range []struct {
		heights, earlier int
		want             Basis
		date             bool
	}{
		{0, 0, ClubRange, false}, {0, 1, ClubRange, false}, {0, 2, EarlierRunners, true}, {1, 0, OwnHeights, true},
	} {
		if got := BasisOf(c.heights, c.earlier); got != c.want || got.GivesDate() != c.date {
			t.Errorf("%d heights, %d earlier: %v", c.heights, c.earlier, got)
		}
	}
}

func TestNextHeight(t *testing.T) {
	for _, c := range []struct{ since, left, want float64 }{
		{0, 300, 60},  // new: after 60
		{20, 300, 40}, // 20 of them done
		{80, 200, 0},  // now
		{0, 40, 30},   // soon due, but 30 passes must lie between
		{25, 40, 20},  // half of what is left comes first
	} {
		if got := NextHeight(c.since, c.left); got != c.want {
			t.Errorf("%v since, %v left: in %v passes, want %v", c.since, c.left, got, c.want)
		}
	}
}
