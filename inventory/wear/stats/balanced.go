package stats

import (
	"errors"
	"fmt"

	"gonum.org/v1/gonum/stat"
)

// Balanced is a one-way layout with as many values in every group.
type Balanced struct {
	Mean            float64
	Between, Within float64   // variances between the groups' true means, and within groups
	Shrunken        []float64 // each group's true mean as best guessed
}

// BalancedREML splits the spread of two or more groups of two or more values
// each by restricted maximum likelihood; where the groups differ by less than
// chance, Between is 0. Source: S. R. Searle, G. Casella, C. E. McCulloch,
// Variance Components, 1992, §4.8.
func BalancedREML(groups [][]float64) (Balanced, error) {
	if err := checkBalanced(groups); err != nil {
		return Balanced{}, err
	}
	a, n := float64(len(groups)), float64(len(groups[0]))
	means := make([]float64, len(groups))
	within := 0.0
	for i, g := range groups {
		means[i] = stat.Mean(g, nil)
		within += stat.Variance(g, nil) * (n - 1)
	}
	mean, meanVariance := stat.MeanVariance(means, nil)
	b := Balanced{Mean: mean, Within: within / (a * (n - 1))}
	b.Between = meanVariance - b.Within/n
	if b.Between <= 0 {
		b.Between = 0
		b.Within = (within + (a-1)*n*meanVariance) / (a*n - 1)
	}
	own := 0.0
	if b.Between > 0 {
		own = b.Between / (b.Between + b.Within/n)
	}
	for _, m := range means {
		b.Shrunken = append(b.Shrunken, mean+own*(m-mean))
	}
	return b, nil
}

func checkBalanced(groups [][]float64) error {
	if len(groups) < 2 || len(groups[0]) < 2 {
		return errors.New("two or more groups of two or more values are needed")
	}
	for i, g := range groups {
		if len(g) != len(groups[0]) {
			return fmt.Errorf("group %d has %d values, the first %d: the groups must be as large", i+1, len(g), len(groups[0]))
		}
		if err := checkFinite("value", g...); err != nil {
			return fmt.Errorf("group %d: %w", i+1, err)
		}
	}
	return nil
}
