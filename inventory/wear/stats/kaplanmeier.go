package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Life is one piece's time until it ended, or until it was last seen in use.
type Life struct {
	Time  float64 // above 0, in any unit
	Ended bool    // false: still in use, lost, or at the season's end
}

// SurvivalStep is a survival curve from one time to the next.
type SurvivalStep struct {
	Time                    float64
	AtRisk, Ended, Censored int
	Survival, SE            float64  // share still alive just after Time; Greenwood's standard error
	Interval                Interval // log-log; from 0 to 1 where the formula gives none
	Hazard, HazardSE        float64  // Nelson and Aalen's cumulative hazard
}

// KaplanMeier gives the share of pieces still alive after each time at which
// one ended or was last seen. Source: E. L. Kaplan, P. Meier, Journal of the
// American Statistical Association 53 (1958) 457.
func KaplanMeier(lives []Life, level float64) ([]SurvivalStep, error) {
	if err := errors.Join(checkLives(lives), checkLevel(level)); err != nil {
		return nil, err
	}
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	var steps []SurvivalStep
	survival, greenwood, hazard, hazardVariance := 1.0, 0.0, 0.0, 0.0
	for _, c := range tally(lives) {
		n, d := float64(c.atRisk), float64(c.ended)
		survival *= 1 - d/n
		greenwood += d / (n * (n - d))
		hazard += d / n
		hazardVariance += d / (n * n)
		s := SurvivalStep{Time: c.time, AtRisk: c.atRisk, Ended: c.ended, Censored: c.censored,
			Survival: survival, Hazard: hazard, HazardSE: math.Sqrt(hazardVariance), Interval: Interval{0, 1}}
		if survival > 0 {
			s.SE = survival * math.Sqrt(greenwood)
			s.Interval = logLogInterval(survival, greenwood, z)
		}
		steps = append(steps, s)
	}
	return steps, nil
}

// MedianLife is the time at which half have ended; false while more than half
// still live. On a stretch at exactly one half it is the stretch's middle.
func MedianLife(steps []SurvivalStep) (float64, bool) {
	const half = .5 + 1e-12
	for i, s := range steps {
		if s.Survival > half {
			continue
		}
		if s.Survival < 1-half || s.Ended == 0 {
			return s.Time, true
		}
		for _, later := range steps[i+1:] {
			if later.Ended > 0 {
				return (s.Time + later.Time) / 2, true
			}
		}
		return s.Time, true
	}
	return 0, false
}

// logLogInterval is symmetric in log(−log survival), so that it stays within 0
// and 1. Source: J. D. Kalbfleisch, R. L. Prentice, 1980, §1.3.
func logLogInterval(survival, greenwood, z float64) Interval {
	l := math.Log(survival)
	if l == 0 {
		return Interval{0, 1}
	}
	width := math.Exp(z * math.Sqrt(greenwood) / -l)
	return Interval{math.Exp(l * width), math.Exp(l / width)}
}

// timeCount is what happened at one time.
type timeCount struct {
	time                    float64
	atRisk, ended, censored int
}

// tally counts per distinct time, in order.
func tally(lives []Life) []timeCount {
	sorted := slices.Clone(lives)
	slices.SortFunc(sorted, func(a, b Life) int { return sign(a.Time - b.Time) })
	var counts []timeCount
	for i, l := range sorted {
		if i == 0 || l.Time != sorted[i-1].Time {
			counts = append(counts, timeCount{time: l.Time, atRisk: len(sorted) - i})
		}
		c := &counts[len(counts)-1]
		if l.Ended {
			c.ended++
		} else {
			c.censored++
		}
	}
	return counts
}

func checkLives(lives []Life) error {
	if len(lives) == 0 {
		return errors.New("no lives to count")
	}
	for i, l := range lives {
		if err := checkPositive("time", l.Time); err != nil {
			return fmt.Errorf("piece %d of %d: %w", i+1, len(lives), err)
		}
	}
	return nil
}
