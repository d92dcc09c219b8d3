package trend

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
	"steeltally/inventory/wear/stats"
)

// showing is the chance with which a difference shows that is called
// detectable.
const showing = 0.8

// detectable is the true mean of n paired differences, in their standard
// deviations, that a two-sided t test at alpha finds with chance .8. Source:
// the noncentral t, as in any text on power; gonum's is Lenth's AS 243.
func detectable(n int, alpha float64) float64 {
	freedom := float64(n - 1)
	limit := stats.StudentQuantile(1-alpha/2, freedom)
	power := func(effect float64) float64 {
		t := distuv.NoncentralT{Nu: freedom, Mu: effect * math.Sqrt(float64(n))}
		return 1 - t.CDF(limit) + t.CDF(-limit)
	}
	low, high := 0.0, 1.0
	for power(high) < showing && high < 1e3 {
		low, high = high, 2*high
	}
	effect, err := stats.Root(func(e float64) float64 { return power(e) - showing }, low, high, 1e-9)
	if err != nil {
		return math.Inf(1)
	}
	return effect
}

// detectableRatio is how many times as high one of two rates must be to show
// with chance .8 at alpha, given exposures and incidents as many as were seen
// in all; +Inf where no ratio would.
func detectableRatio(total int, share, alpha float64) float64 {
	critical, found := leastExtreme(total, share, alpha)
	if !found {
		return math.Inf(1)
	}
	power := func(ratio float64) float64 {
		odds := ratio * share / (1 - share)
		b := distuv.Binomial{N: float64(total), P: odds / (1 + odds)}
		return b.Survival(float64(critical - 1))
	}
	high := 2.0
	for power(high) < showing {
		if high *= 2; high > 1e6 {
			return math.Inf(1)
		}
	}
	ratio, err := stats.Root(func(r float64) float64 { return power(r) - showing }, 1, high, 1e-9)
	if err != nil {
		return math.Inf(1)
	}
	return ratio
}

// leastExtreme is the smallest count above its share whose exact two-sided p is
// at most alpha.
func leastExtreme(total int, share, alpha float64) (count int, found bool) {
	for k := int(float64(total)*share) + 1; k <= total; k++ {
		p, err := stats.BinomialTest(k, total, share)
		if err == nil && p <= alpha {
			return k, true
		}
	}
	return 0, false
}
