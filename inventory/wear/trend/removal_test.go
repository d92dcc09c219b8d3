package trend

import (
	"math"
	"testing"

	"steeltally/geometry"
)

func TestRemovalHeightsFall(t *testing.T) {
	falling := func(from geometry.Millimetre, sets int) []Removed {
		var removed []Removed
		for i := range sets {
			removed = append(removed, Removed{Day: float64(15 * (i + 1)), Height: from - .1*geometry.Millimetre(i)})
		}
		return removed
	}
	// Heights of 14.0 and 16.0 mixed over days would show nothing; within players
	// both fall by .2 mm a month. Only one of 5!·6! orders is as low, one as high.
	got, err := RemovalHeights([][]Removed{falling(16, 5), falling(14, 6)}, .9)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "p", got.P, 2/(120.0*720), 1e-15)
	near(t, "slope", got.PerMonth.Slope, -.2, 1e-9)
	if got.S != -25 || !got.PerMonth.SlopeInterval.Contains(got.PerMonth.Slope) || math.IsInf(got.PerMonth.SlopeInterval.Low, -1) {
		t.Errorf("%+v: want S −25 and a bounded interval about the slope", got)
	}
	if _, err := RemovalHeights([][]Removed{falling(16, 1), nil}, .9); err == nil {
		t.Error("one set has a trend")
	}
}

// The lives of the project's reference table (R 4.2.2, survival 3.5.3).
func TestLifeByReason(t *testing.T) {
	reason := map[int]Reason{0: StillInUse, 1: LowSteel, 2: Breakage}
	lengths := []float64{3, 5, 5, 7, 8, 8, 10, 12, 12, 14, 15, 18}
	var lives []LifeSpan
	for i, c := range []int{1, 2, 1, 0, 1, 2, 1, 2, 0, 1, 2, 0} {
		lives = append(lives, LifeSpan{lengths[i], reason[c]})
	}
	steps, err := ByReason(lives)
	if err != nil {
		t.Fatal(err)
	}
	last := steps[len(steps)-1]
	near(t, "low steel", last.Incidence[LowSteel-1], .479166666667, 5e-13)
	near(t, "breakage", last.Incidence[Breakage-1], .395833333333, 5e-13)
	near(t, "other", last.Incidence[OtherReason-1], 0, 0)
	near(t, "still in use", last.Survival, .125, 1e-12)
	if _, err := ByReason([]LifeSpan{{4, 9}}); err == nil {
		t.Error("an unknown reason was counted")
	}
}
