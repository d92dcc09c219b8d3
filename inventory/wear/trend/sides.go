package trend

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"steeltally/inventory/wear/stats"
)

const (
	fewestPairs    = 4 // below this the interval is given without a test
	fewestSignFlip = 6 // below this a sign flip cannot show p below .05
)

// Sides compares the wear of left and right over a player's pairs.
type Sides struct {
	Pairs      int
	Ratio      float64        // left over right
	Interval   stats.Interval // of the ratio; from 0 to +Inf for one pair
	P          float64        // two-sided; 1 where it was not tested
	Tested     bool           // four pairs or more
	SignFlip   float64        // exact p beside it, six pairs or more; else 1
	Detectable float64        // a difference below this share, .1 for 10 %, would not show; +Inf: none would
}

// CompareSides tests whether left and right steel wear alike, from the loss per
// pass of the left and right runner of each pair. Its unit is the pair; the
// test is Student's paired t on the logarithm of the ratio. Level is that of
// the interval (.8, .95); alpha that at which a difference would be called,
// after all allowances, for Detectable.
func CompareSides(left, right []float64, level, alpha float64) (Sides, error) {
	logs, err := logRatios(left, right)
	if err != nil {
		return Sides{}, err
	}
	if !(level > 0 && level < 1 && alpha > 0 && alpha < 1) {
		return Sides{}, fmt.Errorf("level %v and alpha %v must lie between 0 and 1", level, alpha)
	}
	n := float64(len(logs))
	s := Sides{Pairs: len(logs), P: 1, SignFlip: 1, Detectable: math.Inf(1)}
	mean, sd := stat.MeanStdDev(logs, nil)
	s.Ratio = math.Exp(mean)
	s.Interval = stats.Interval{Low: 0, High: math.Inf(1)}
	if n < 2 {
		return s, nil
	}
	se := sd / math.Sqrt(n)
	half := se * stats.StudentQuantile((1+level)/2, n-1)
	s.Interval = stats.Interval{Low: math.Exp(mean - half), High: math.Exp(mean + half)}
	if n < fewestPairs {
		return s, nil
	}
	s.Tested, s.P = true, studentP(mean, se, n-1)
	s.Detectable = math.Expm1(sd * detectable(len(logs), alpha))
	if n >= fewestSignFlip && n <= stats.SignFlipLimit {
		s.SignFlip, err = stats.SignFlip(logs)
	}
	return s, err
}

// studentP is the two-sided p of a mean with its standard error.
func studentP(mean, se, freedom float64) float64 {
	if se == 0 {
		if mean == 0 {
			return 1
		}
		return 0
	}
	return math.Min(1, 2*distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Survival(math.Abs(mean/se)))
}

func logRatios(left, right []float64) ([]float64, error) {
	if len(left) != len(right) || len(left) == 0 {
		return nil, fmt.Errorf("%d left and %d right losses: give one of each for every pair", len(left), len(right))
	}
	logs := make([]float64, len(left))
	for i := range left {
		if !(left[i] > 0 && right[i] > 0) || math.IsInf(left[i], 0) || math.IsInf(right[i], 0) {
			return nil, fmt.Errorf("pair %d lost %v and %v a pass: %w", i+1, left[i], right[i], errNoLoss)
		}
		logs[i] = math.Log(left[i] / right[i])
	}
	return logs, nil
}

var errNoLoss = errors.New("a loss must be above 0: leave the pair out")
