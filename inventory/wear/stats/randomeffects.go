package stats

import (
	"errors"
	"fmt"
	"math"
)

const scoringSteps = 1000 // a dozen are usual

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

// REML pools two or more estimates by restricted maximum likelihood, in steps
// of Fisher's scoring until one changes Tau2 by at most the tolerance; 0 goes
// on to the last digit. Source: W. Viechtbauer, Journal of Educational and
// Behavioral Statistics 30 (2005) 261.
func REML(parts []Estimate, tolerance float64) (Effects, error) {
	if err := checkEstimates(parts); err != nil {
		return Effects{}, err
	}
	if len(parts) < 2 {
		return Effects{}, errors.New("one estimate shows no spread: give two or more")
	}
	e := newEffects(parts)
	e.Tau2 = e.momentStart()
	for range scoringSteps {
		step := e.scoringStep()
		e.Tau2 += step
		if math.Abs(step) <= math.Max(tolerance, 1e-15*(e.Tau2+parts[0].Variance)) {
			return e.settle(), nil
		}
	}
	return Effects{}, fmt.Errorf("variance between %d estimates not settled in %d steps", len(parts), scoringSteps)
}

// Shrunken gives each true value as best guessed from its estimate and the
// others, with the variance of that guess.
func (e Effects) Shrunken() []Estimate {
	guesses := make([]Estimate, len(e.parts))
	for i, p := range e.parts {
		own := e.Tau2 / (e.Tau2 + p.Variance)
		guesses[i] = Estimate{
			Value:    own*p.Value + (1-own)*e.Mean,
			Variance: own*p.Variance + (1-own)*(1-own)*e.SE*e.SE,
		}
	}
	return guesses
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

// momentStart is the unweighted moment estimate of Tau2 (Hedges), a start.
func (e Effects) momentStart() float64 {
	mean, sampling := 0.0, 0.0
	k := float64(len(e.parts))
	for _, p := range e.parts {
		mean += p.Value / k
		sampling += p.Variance / k
	}
	squares := 0.0
	for _, p := range e.parts {
		squares += (p.Value - mean) * (p.Value - mean)
	}
	return math.Max(0, squares/(k-1)-sampling)
}

// scoringStep is the restricted likelihood's slope in Tau2 over its expected
// curvature, held so that Tau2 does not fall below 0.
func (e Effects) scoringStep() float64 {
	mean, w1 := e.weighted(e.Tau2)
	var squares, w2, w3 float64
	for _, p := range e.parts {
		w := 1 / (p.Variance + e.Tau2)
		d := p.Value - mean
		squares += w * w * d * d
		w2 += w * w
		w3 += w * w * w
	}
	slope := squares - w1 + w2/w1
	curvature := w2 - 2*w3/w1 + w2*w2/(w1*w1)
	return math.Max(slope/curvature, -e.Tau2)
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
