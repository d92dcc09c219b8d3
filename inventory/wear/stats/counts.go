package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// tieTolerance calls two outcomes equally likely, as R does, where rounding
// alone parts them.
const tieTolerance = 1e-7

// PoissonInterval holds the expected count behind an observed one. Source:
// F. Garwood, Biometrika 28 (1936) 437.
func PoissonInterval(count int, level float64) (Interval, error) {
	if err := errors.Join(checkCounts("count", count), checkLevel(level)); err != nil {
		return Interval{}, err
	}
	miss := (1 - level) / 2
	i := Interval{High: gammaQuantile(float64(count)+1, 1-miss)}
	if count > 0 {
		i.Low = gammaQuantile(float64(count), miss)
	}
	return i, nil
}

// ProportionInterval holds the chance behind an observed share. Source:
// C. J. Clopper, E. S. Pearson, Biometrika 26 (1934) 404.
func ProportionInterval(successes, trials int, level float64) (Interval, error) {
	if err := checkShare(successes, trials); err != nil {
		return Interval{}, err
	}
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	miss := (1 - level) / 2
	k, n := float64(successes), float64(trials)
	i := Interval{0, 1}
	if successes > 0 {
		i.Low = distuv.Beta{Alpha: k, Beta: n - k + 1}.Quantile(miss)
	}
	if successes < trials {
		i.High = distuv.Beta{Alpha: k + 1, Beta: n - k}.Quantile(1 - miss)
	}
	return i, nil
}

// BinomialTest is the two-sided exact p of a share against a chance between 0
// and 1: all outcomes at most as likely as the observed one.
func BinomialTest(successes, trials int, chance float64) (float64, error) {
	if err := checkShare(successes, trials); err != nil {
		return 0, err
	}
	if !(chance > 0 && chance < 1) {
		return 0, fmt.Errorf("chance %v is not between 0 and 1", chance)
	}
	b := distuv.Binomial{N: float64(trials), P: chance}
	return pointProbabilityTail(trials+1, successes, func(k int) float64 { return b.Prob(float64(k)) }), nil
}

// pointProbabilityTail sums the chances of all outcomes at most as likely as
// the observed one.
func pointProbabilityTail(outcomes, observed int, chance func(int) float64) float64 {
	limit := chance(observed) * (1 + tieTolerance)
	p := 0.0
	for k := range outcomes {
		if c := chance(k); c <= limit {
			p += c
		}
	}
	return math.Min(1, p)
}

// gammaQuantile is the p-quantile of the gamma distribution with unit scale.
func gammaQuantile(shape, p float64) float64 {
	return distuv.Gamma{Alpha: shape, Beta: 1}.Quantile(p)
}

func checkShare(successes, trials int) error {
	if successes < 0 || successes > trials || trials < 1 {
		return fmt.Errorf("%d of %d is not a share", successes, trials)
	}
	return nil
}
