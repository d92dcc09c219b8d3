package stats

import (
	"errors"
	"math"
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
