package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// End is one piece's time and the reason why it ended: 1, 2, … or 0 for a
// piece still in use, lost, or at the season's end.
type End struct {
	Time  float64
	Cause int
}

// IncidenceStep is the shares ended by each cause, from one time to the next.
type IncidenceStep struct {
	Time      float64
	AtRisk    int
	Survival  float64   // share not ended by any cause
	Incidence []float64 // share ended by cause 1, 2, …
	SE        []float64 // infinitesimal jackknife
}

// AalenJohansen gives the share of pieces ended by each of several causes that
// exclude one another. One minus Kaplan–Meier for a single cause would pretend
// that the other causes do not exist, and is too high. Source: O. O. Aalen,
// S. Johansen, Scandinavian Journal of Statistics 5 (1978) 141.
func AalenJohansen(ends []End, causes int) ([]IncidenceStep, error) {
	if err := checkEnds(ends, causes); err != nil {
		return nil, err
	}
	table := newIncidenceTable(len(ends), causes)
	var steps []IncidenceStep
	for _, time := range distinctTimes(ends) {
		steps = append(steps, table.advance(ends, time))
	}
	return steps, nil
}

// incidenceTable carries the estimates along time, and for every piece the
// change of each estimate with that piece's weight.
type incidenceTable struct {
	survival      float64
	incidence     []float64
	survivalPull  []float64   // by piece
	incidencePull [][]float64 // by cause and piece
}

func newIncidenceTable(pieces, causes int) *incidenceTable {
	t := &incidenceTable{survival: 1, incidence: make([]float64, causes), survivalPull: make([]float64, pieces)}
	for range causes {
		t.incidencePull = append(t.incidencePull, make([]float64, pieces))
	}
	return t
}

// advance takes the ends at one time into account.
func (t *incidenceTable) advance(ends []End, time float64) IncidenceStep {
	atRisk, hazard := hazards(ends, time, len(t.incidence))
	total := 0.0
	for _, h := range hazard {
		total += h
	}
	for i, e := range ends {
		fall := 0.0 // change of the total hazard with this piece's weight
		for c, h := range hazard {
			pull := hazardPull(e, time, c+1, h) / float64(atRisk)
			t.incidencePull[c][i] += t.survivalPull[i]*h + t.survival*pull
			fall += pull
		}
		t.survivalPull[i] = t.survivalPull[i]*(1-total) - t.survival*fall
	}
	step := IncidenceStep{Time: time, AtRisk: atRisk}
	for c, h := range hazard {
		t.incidence[c] += t.survival * h
		step.SE = append(step.SE, rootOfSquares(t.incidencePull[c]))
	}
	t.survival *= 1 - total
	step.Survival, step.Incidence = t.survival, slices.Clone(t.incidence)
	return step
}

// hazards is the share of those at risk that ends at a time, by cause.
func hazards(ends []End, time float64, causes int) (atRisk int, hazard []float64) {
	hazard = make([]float64, causes)
	for _, e := range ends {
		if e.Time >= time {
			atRisk++
		}
		if e.Time == time && e.Cause > 0 {
			hazard[e.Cause-1]++
		}
	}
	for c := range hazard {
		hazard[c] /= float64(atRisk)
	}
	return atRisk, hazard
}

func hazardPull(e End, time float64, cause int, hazard float64) float64 {
	switch {
	case e.Time < time:
		return 0
	case e.Time == time && e.Cause == cause:
		return 1 - hazard
	}
	return -hazard
}

func rootOfSquares(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v * v
	}
	return math.Sqrt(sum)
}

func distinctTimes(ends []End) []float64 {
	times := make([]float64, len(ends))
	for i, e := range ends {
		times[i] = e.Time
	}
	slices.Sort(times)
	return slices.Compact(times)
}

func checkEnds(ends []End, causes int) error {
	if len(ends) == 0 || causes < 1 {
		return errors.New("no ends or no causes to count")
	}
	for i, e := range ends {
		if err := checkPositive("time", e.Time); err != nil {
			return fmt.Errorf("piece %d of %d: %w", i+1, len(ends), err)
		}
		if e.Cause < 0 || e.Cause > causes {
			return fmt.Errorf("piece %d of %d ended by cause %d: causes go from 1 to %d, 0 is still in use", i+1, len(ends), e.Cause, causes)
		}
	}
	return nil
}
