package stats

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// RateRatio compares two rates of incidents: the first over the second.
type RateRatio struct {
	Ratio    float64  // +Inf where the second has no incident
	P        float64  // two-sided, by point probability
	Interval Interval // of the ratio
}

// CompareRates compares counts over their exposures (sessions in use, say),
// exactly: given the total, the first count is binomial. Source: E. L. Lehmann,
// Testing Statistical Hypotheses, 1959, §4.5; the interval by Clopper–Pearson.
func CompareRates(count1 int, exposure1 float64, count2 int, exposure2 float64, level float64) (RateRatio, error) {
	err := errors.Join(checkCounts("count", count1, count2),
		checkPositive("exposure", exposure1, exposure2), checkLevel(level))
	if err != nil {
		return RateRatio{}, err
	}
	total := count1 + count2
	if total == 0 {
		return RateRatio{}, errors.New("no incidents at all: nothing to compare")
	}
	p, err := BinomialTest(count1, total, exposure1/(exposure1+exposure2))
	if err != nil {
		return RateRatio{}, err
	}
	share, err := ProportionInterval(count1, total, level)
	if err != nil {
		return RateRatio{}, err
	}
	odds := func(share float64) float64 {
		if share == 1 {
			return math.Inf(1)
		}
		return share / (1 - share) * exposure2 / exposure1
	}
	return RateRatio{
		Ratio:    odds(float64(count1) / float64(total)),
		P:        p,
		Interval: Interval{odds(share.Low), odds(share.High)},
	}, nil
}

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
	if err := cmp.Or(checkShare(successes, trials), checkLevel(level)); err != nil {
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
