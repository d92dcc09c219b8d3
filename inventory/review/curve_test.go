package review

import (
	"reflect"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// A curve breaks off where nobody counted the passes, and goes on at those that were
// counted by then.
func TestCurvesBreakOffAtUncountedPasses(t *testing.T) {
	day := func(n int) inventory.When { return inventory.At(time.Date(2025, 11, n, 9, 0, 0, 0, time.UTC)) }
	r := &inventory.Runner{}
	grind := func(n int, passes *int) {
		r.Works = append(r.Works, inventory.Dated[inventory.Work]{When: day(n), Value: inventory.Work{Kind: inventory.WorkGrind, Passes: passes}})
	}
	measure := func(n int, middle geometry.Millimetre) {
		r.Readings = append(r.Readings, inventory.Dated[inventory.Reading]{When: day(n), Value: inventory.Reading{Reference: inventory.Loose, Middle: &middle}})
	}
	ten := 10
	measure(1, 21)
	grind(2, &ten)
	measure(3, 20.8)
	grind(4, &ten)
	grind(5, nil)
	measure(6, 20)
	grind(7, &ten)
	measure(8, 19.8)
	want := []Curve{{Passes: []float64{0, 10}, Heights: []float64{21, 20.8}}, {Passes: []float64{20, 30}, Heights: []float64{20, 19.8}}}
	if got := CurvesOf(r, day(9).Start); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}
