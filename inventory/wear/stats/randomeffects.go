package stats

import (
	"errors"
	"fmt"
	"math"
)

// Estimate is a value with its variance.
type Estimate struct{ Value, Variance float64 }

// Effects is a pooling of estimates that differ by more than their own errors.
type Effects struct {
	Mean  float64
	SE    float64 // standard error of Mean
	Tau2  float64 // variance between the true values
	Q     float64 // weighted squares about the fixed effect
	Fixed float64 // the mean if all true values were one
	parts []Estimate
}

// DerSimonianLaird pools one or more estimates by the method of moments; of a
// single one, Tau2 is 0. Source: R. DerSimonian, N. Laird, Controlled Clinical
// Trials 7 (1986) 177.
func DerSimonianLaird(parts []Estimate) (Effects, error) {
	if err := checkEstimates(parts); err != nil {
		return Effects{}, err
	}
	e := newEffects(parts)
	if len(parts) > 1 {
		var w, w2 float64
		for _, p := range parts {
			w += 1 / p.Variance
			w2 += 1 / (p.Variance * p.Variance)
		}
		e.Tau2 = math.Max(0, (e.Q-float64(len(parts)-1))/(w-w2/w))
	}
	return e.settle(), nil
}

func newEffects(parts []Estimate) Effects {
	e := Effects{parts: parts}
	e.Fixed, _ = e.weighted(0)
	for _, p := range parts {
		d := p.Value - e.Fixed
		e.Q += d * d / p.Variance
	}
	return e
}

// settle computes the mean once Tau2 is known.
func (e Effects) settle() Effects {
	mean, precision := e.weighted(e.Tau2)
	e.Mean, e.SE = mean, 1/math.Sqrt(precision)
	return e
}

func (e Effects) weighted(tau2 float64) (mean, precision float64) {
	for _, p := range e.parts {
		w := 1 / (p.Variance + tau2)
		precision += w
		mean += w * p.Value
	}
	return mean / precision, precision
}

func checkEstimates(parts []Estimate) error {
	if len(parts) == 0 {
		return errors.New("no estimates to pool")
	}
	for i, p := range parts {
		if err := errors.Join(checkFinite("estimate", p.Value), checkPositive("variance", p.Variance)); err != nil {
			return fmt.Errorf("estimate %d of %d: %w", i+1, len(parts), err)
		}
	}
	return nil
}
