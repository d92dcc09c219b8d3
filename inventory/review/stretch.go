package review

import (
	"math"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"steeltally/inventory"
)

// What a stretch needs to tell of one hand; common practice, no source.
const (
	leastStretch = 30  // passes
	mostOff      = 1.0 // mm from what is to be expected: beyond, a height is wrong
	nearlyAll    = 0.8 // of its passes
	fewStretches = 4   // below this only the figures are told
)

// stretch is what was lost between two heights against what was to be expected.
type stretch struct{ lost, expected float64 }

func (l *Life) passesBy(name func(hand) string, at time.Time) map[string]int {
	sums := map[string]int{}
	for _, work := range l.runner.Works.Until(at) {
		if work.Value.Passes != nil {
			sums[name(l.hands[work.Event])] += *work.Value.Passes
		}
	}
	return sums
}

// addStretches adds the stretches between two heights that nearly one hand ground alone.
func (l *Life) addStretches(byName map[string][]stretch, name func(hand) string, loss float64, at time.Time) {
	for _, reference := range []inventory.Reference{inventory.Loose, inventory.Fitted} {
		for _, s := range l.runner.Series(reference, at).Stretches {
			for i := 1; i < len(s.Readings); i++ {
				from, to := s.Readings[i-1], s.Readings[i]
				ground := to.Passes - from.Passes
				if ground < leastStretch {
					continue
				}
				s := stretch{float64(from.Height - to.Height), loss * float64(ground)}
				if who := l.mainHand(from.When.Start, to.When.Start, ground, name); who != "" && math.Abs(s.lost-s.expected) < mostOff {
					byName[who] = append(byName[who], s)
				}
			}
		}
	}
}

// mainHand is whose passes nearly all between two times were; empty for nobody's.
func (l *Life) mainHand(from, until time.Time, ground int, name func(hand) string) string {
	sums := map[string]int{}
	for _, work := range l.runner.Works {
		if at := work.When.Start; work.Value.Passes != nil && at.After(from) && !at.After(until) {
			sums[name(l.hands[work.Event])] += *work.Value.Passes
		}
	}
	for who, n := range sums {
		if float64(n) >= nearlyAll*float64(ground) {
			return who
		}
	}
	return ""
}

// lossRatio is all that was lost over all that was to be expected, with its standard
// error from how the stretches scatter (the ratio estimator, as in any text on surveys).
func lossRatio(list []stretch) (ratio, se float64) {
	lost, expected := 0.0, 0.0
	for _, s := range list {
		lost, expected = lost+s.lost, expected+s.expected
	}
	if expected == 0 {
		return 0, math.Inf(1)
	}
	ratio = lost / expected
	squares := 0.0
	for _, s := range list {
		d := s.lost - ratio*s.expected
		squares += d * d
	}
	n := float64(len(list))
	if n < 2 {
		return ratio, math.Inf(1)
	}
	return ratio, math.Sqrt(squares*n/(n-1)) / expected
}

// studentP is the two-sided chance of so large a t where nothing differs.
func studentP(t, freedom float64) float64 {
	return min(1, 2*distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Survival(math.Abs(t)))
}
