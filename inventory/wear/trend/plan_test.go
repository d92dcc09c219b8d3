package trend

import (
	"slices"
	"testing"
)

func TestDiffersAllowsForComparisonsAndLooks(t *testing.T) {
	// Holm's .005, .048, .048, .08, .2 against .05/7 = .00714.
	got, err := UsualPlan().Differs([]float64{.001, .012, .013, .04, .2})
	if want := []bool{true, false, false, false, false}; err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v, want %v", got, err, want)
	}
	once, err := Plan{Level: .05, Looks: 1}.Differs([]float64{.001, .012, .013, .04, .2})
	if want := []bool{true, true, true, false, false}; err != nil || !slices.Equal(once, want) {
		t.Errorf("one look: %v, %v, want %v", once, err, want)
	}
	if _, err := (Plan{Level: 5, Looks: 7}).Differs(nil); err == nil {
		t.Error("a level of 5 passed")
	}
}

func TestVerdictsStandBetweenSetDays(t *testing.T) {
	p := UsualPlan()
	days, err := p.LookDays(210)
	if want := []int{30, 60, 90, 120, 150, 180, 210}; err != nil || !slices.Equal(days, want) {
		t.Fatalf("set days %v, %v, want %v", days, err, want)
	}
	for day, want := range map[int]int{29: 0, 30: 30, 59: 30, 210: 210, 300: 210} {
		look, any, err := p.LastLook(day, 210)
		if err != nil || look != want || any != (want > 0) {
			t.Errorf("day %d: look %d (%v), %v, want %d", day, look, any, err, want)
		}
	}
	if _, err := p.LookDays(5); err == nil {
		t.Error("seven looks in five days")
	}
}
