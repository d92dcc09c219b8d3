package geometry

import (
	"strings"
	"testing"
)

// A parabola through five even stations has leverages (31, 13, 17, 13, 31)/35:
// the smoothing weights of A. Savitzky, M. J. E. Golay, Analytical Chemistry 36
// (1964), 1627, have 17/35 in the middle (from memory). They add up to the three
// unknowns.
func TestLeveragesOfFiveStations(t *testing.T) {
	want := []float64{31. / 35, 13. / 35, 17. / 35, 13. / 35, 31. / 35}
	for i, got := range leverages([]HeightAt{{-80, 20}, {-40, 20}, {0, 20}, {40, 20}, {80, 20}}) {
		near(t, "leverage", got, want[i], 1e-12)
	}
}

// A slip of half a millimetre in one of seven heights shows as misfit; honest
// scatter does not.
func TestMisfitFindsASlip(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(10), 280})
	sound(t, err)
	heights := heightsOf(t, p, 0, -90, -60, -30, 0, 30, 60, 90)
	for i := range heights {
		heights[i].Height += Millimetre(i%3-1) * 0.05
	}
	good, err := RockerWithDoubt(heights, 0.05, 1)
	sound(t, err)
	if good.Misfit > tooMuchScatter {
		t.Errorf("honest scatter counts as misfit %.2f", good.Misfit)
	}
	heights[2].Height += 0.5
	slip, err := RockerWithDoubt(heights, 0.05, 1)
	sound(t, err)
	if slip.Misfit <= tooMuchScatter || !strings.Contains(slip.Meaning(), "do not lie on one radius") {
		t.Errorf("a slip of 0.5 mm passes: misfit %.2f, %q", slip.Misfit, slip.Meaning())
	}
}
