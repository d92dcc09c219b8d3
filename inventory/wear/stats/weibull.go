package stats

import (
	"errors"
	"math"
)

// WeibullFit is a curve of lives: with Shape above 1, pieces end the sooner the
// older they are.
type WeibullFit struct {
	Shape, Scale  float64 // Scale in the unit of the times
	LogLikelihood float64
}

// ErrNoEnds says that no piece has ended yet.
var ErrNoEnds = errors.New("no piece has ended yet: nothing to fit")

// Weibull fits lives, some still going on, by maximum likelihood. Source:
// J. F. Lawless, Statistical Models and Methods for Lifetime Data, 2003, §5.2.
func Weibull(lives []Life) (WeibullFit, error) {
	if err := checkLives(lives); err != nil {
		return WeibullFit{}, err
	}
	longest, ended, logs := 0.0, 0.0, 0.0
	for _, l := range lives {
		longest = math.Max(longest, l.Time)
	}
	for _, l := range lives {
		if l.Ended {
			ended++
			logs += math.Log(l.Time / longest)
		}
	}
	if ended == 0 {
		return WeibullFit{}, ErrNoEnds
	}
	if logs == 0 {
		return WeibullFit{}, errors.New("every piece that ended did so at the longest time: no spread to fit")
	}
	shape, err := weibullShape(lives, longest, logs/ended)
	if err != nil {
		return WeibullFit{}, err
	}
	powers, _ := weibullSums(lives, longest, shape)
	scale := longest * math.Pow(powers/ended, 1/shape)
	sum := logs + ended*math.Log(longest/scale)
	return WeibullFit{
		Shape: shape, Scale: scale,
		LogLikelihood: ended*math.Log(shape/scale) + (shape-1)*sum - ended,
	}, nil
}

// weibullShape solves the profile score, which rises from −∞ with the shape.
func weibullShape(lives []Life, longest, meanLog float64) (float64, error) {
	score := func(shape float64) float64 {
		powers, logs := weibullSums(lives, longest, shape)
		return logs/powers - 1/shape - meanLog
	}
	low, high := 1e-3, 1.0
	for score(high) < 0 {
		high *= 2
	}
	for score(low) > 0 {
		low /= 2
	}
	return Root(score, low, high, 0)
}

// weibullSums is Σ (t/longest)^shape and the same weighted by log(t/longest).
func weibullSums(lives []Life, longest, shape float64) (powers, logs float64) {
	for _, l := range lives {
		u := math.Log(l.Time / longest)
		p := math.Exp(shape * u)
		powers += p
		logs += p * u
	}
	return powers, logs
}
