package wear_test

import (
	"fmt"
	"math"
	"strings"
)

const errorCap = 1500 // passes

// tally adds up how forecasts of one kind of case did.
type tally struct {
	runners, held, early, late, pairsHeld float64
	squares                               map[string]float64 // of errors in passes, by method
}

const (
	ours    = "forecast"
	oracle  = "oracle"
	byNaive = "naive"
	bySlope = "least squares"
)

func newTally() *tally { return &tally{squares: map[string]float64{}} }

// answer is what was said about one runner and its set.
type answer struct {
	low, middle, high, pairLow, pairHigh float64
}

func (t *tally) add(a answer, others map[string]float64, truth [2]float64) {
	t.runners++
	switch {
	case truth[0] < a.low:
		t.early++
	case truth[0] > a.high:
		t.late++
	default:
		t.held++
	}
	if first := math.Min(truth[0], truth[1]); first >= a.pairLow && first <= a.pairHigh {
		t.pairsHeld++
	}
	t.squares[ours] += square(a.middle - truth[0])
	for method, said := range others {
		t.squares[method] += square(said - truth[0])
	}
}

func square(e float64) float64 {
	e = math.Min(math.Abs(e), errorCap)
	return e * e
}

func (t *tally) merge(u *tally) {
	t.runners += u.runners
	t.held += u.held
	t.early += u.early
	t.late += u.late
	t.pairsHeld += u.pairsHeld
	for method, s := range u.squares {
		t.squares[method] += s
	}
}

func (t *tally) coverage() float64     { return t.held / t.runners }
func (t *tally) pairCoverage() float64 { return t.pairsHeld / t.runners }

// rmse is the root mean square error of a method in passes.
func (t *tally) rmse(method string) float64 { return math.Sqrt(t.squares[method] / t.runners) }

// against is our error over another method's.
func (t *tally) against(method string) float64 { return t.rmse(ours) / t.rmse(method) }

func (t *tally) row() string {
	return strings.Join([]string{
		fmt.Sprintf("%5.0f", t.runners),
		fmt.Sprintf("%.3f (%.3f early, %.3f late)", t.coverage(), t.early/t.runners, t.late/t.runners),
		fmt.Sprintf("pairs %.3f", t.pairCoverage()),
		fmt.Sprintf("error %5.1f", t.rmse(ours)),
		fmt.Sprintf("× oracle %.3f", t.against(oracle)),
		fmt.Sprintf("× naive %.3f", t.against(byNaive)),
		fmt.Sprintf("× least squares %.3f", t.against(bySlope)),
	}, "  ")
}
