package stats

import (
	"errors"
	"fmt"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// LogRankResult compares the lives of several groups.
type LogRankResult struct {
	ChiSquare float64
	Freedom   int // groups less one
	P         float64
	Observed  []int     // ends in each group
	Expected  []float64 // had all groups been alike
}

// LogRank tests whether the lives of two or more groups differ. It is an
// approximation for large counts. Source: N. Mantel, Cancer Chemotherapy
// Reports 50 (1966) 163.
func LogRank(groups [][]Life) (LogRankResult, error) {
	if len(groups) < 2 {
		return LogRankResult{}, errors.New("one group cannot be compared: give two or more")
	}
	var all []Life
	for i, g := range groups {
		if err := checkLives(g); err != nil {
			return LogRankResult{}, fmt.Errorf("group %d: %w", i+1, err)
		}
		all = append(all, g...)
	}
	last := len(groups) - 1
	result := LogRankResult{Freedom: last, Observed: make([]int, len(groups)), Expected: make([]float64, len(groups))}
	covariance := mat.NewSymDense(last, nil)
	for _, c := range tally(all) {
		if c.ended > 0 {
			result.addTime(groups, c, covariance)
		}
	}
	return result, result.conclude(covariance)
}

// addTime adds what one time expects of each group, and its covariance.
func (r *LogRankResult) addTime(groups [][]Life, c timeCount, covariance *mat.SymDense) {
	n, d := float64(c.atRisk), float64(c.ended)
	share := make([]float64, len(groups))
	for i, g := range groups {
		for _, l := range g {
			if l.Time >= c.time {
				share[i] += 1 / n
			}
			if l.Time == c.time && l.Ended {
				r.Observed[i]++
			}
		}
		r.Expected[i] += d * share[i]
	}
	if n < 2 {
		return
	}
	spread := d * (n - d) / (n - 1)
	for i := range r.Freedom {
		for j := i; j < r.Freedom; j++ {
			v := -share[i] * share[j]
			if i == j {
				v += share[i]
			}
			covariance.SetSym(i, j, covariance.At(i, j)+spread*v)
		}
	}
}

func (r *LogRankResult) conclude(covariance *mat.SymDense) error {
	surplus := mat.NewVecDense(r.Freedom, nil)
	for i := range r.Freedom {
		surplus.SetVec(i, float64(r.Observed[i])-r.Expected[i])
	}
	var factor mat.Cholesky
	if !factor.Factorize(covariance) {
		return errors.New("too few ends to compare the groups: wait for more")
	}
	var scaled mat.VecDense
	if err := factor.SolveVecTo(&scaled, surplus); err != nil {
		return fmt.Errorf("too few ends to compare the groups: %w", err)
	}
	r.ChiSquare = mat.Dot(surplus, &scaled)
	r.P = distuv.ChiSquared{K: float64(r.Freedom)}.Survival(r.ChiSquare)
	return nil
}
