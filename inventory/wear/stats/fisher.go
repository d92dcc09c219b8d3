package stats

import (
	"errors"
	"math"
)

// Table is a two-by-two table of counts: rows are groups, columns outcomes.
type Table [2][2]int

// FisherResult is the exact comparison of two shares.
type FisherResult struct {
	Less, Greater float64 // one-sided: first cell as small, as large
	TwoSided      float64 // by point probability
}

// Fisher compares the shares of two groups, exactly, given all margins. Source:
// R. A. Fisher, The Design of Experiments, 1935, §9 (the lady tasting tea).
func Fisher(t Table) (FisherResult, error) {
	if err := checkCounts("cell", t[0][0], t[0][1], t[1][0], t[1][1]); err != nil {
		return FisherResult{}, err
	}
	row, other, column := t[0][0]+t[0][1], t[1][0]+t[1][1], t[0][0]+t[1][0]
	if row+other == 0 {
		return FisherResult{}, errors.New("the table is empty: nothing to compare")
	}
	least, most := max(0, column-other), min(row, column)
	chance := func(k int) float64 {
		cell := least + k
		return math.Exp(logChoose(row, cell) + logChoose(other, column-cell) - logChoose(row+other, column))
	}
	observed := t[0][0] - least
	var r FisherResult
	for k := 0; k <= most-least; k++ {
		if k <= observed {
			r.Less += chance(k)
		}
		if k >= observed {
			r.Greater += chance(k)
		}
	}
	r.TwoSided = pointProbabilityTail(most-least+1, observed, chance)
	return r, nil
}

func logChoose(n, k int) float64 { return logFactorial(n) - logFactorial(k) - logFactorial(n-k) }

func logFactorial(n int) float64 {
	l, _ := math.Lgamma(float64(n) + 1)
	return l
}
