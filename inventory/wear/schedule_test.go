package wear

import (
	"errors"
	"math"
	"slices"
	"testing"
)

// Values: R 4.2.2, the stated formulas written anew in it.
func TestSessionsPooled(t *testing.T) {
	own := []float64{5, 6, 0, 5, 10}
	others := [][]float64{{5, 5, 6, 4}, {8, 7, 9}, {4, 5, 0, 5, 6}, {5}}
	s, err := Defaults().PoolSessions(own, others)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "mean", s.Mean, "5.2800540084280")
	same(t, "variance of the mean", s.MeanVariance, ".8161823551899")
	same(t, "variance", s.Variance, "5.6920634920635")
	unseen, err := Defaults().PoolSessions(nil, others)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "club mean", unseen.Mean, "5.482824078086")
	same(t, "its variance", unseen.MeanVariance, "2.883503608244")
	same(t, "club variance", unseen.Variance, "2.888888888889")
}

func TestSessionsAlone(t *testing.T) {
	s, err := Defaults().PoolSessions([]float64{4, 5, 6}, nil)
	if err != nil || s.Mean != 5 || s.Variance != 1 || math.Abs(s.MeanVariance-1.0/3) > 1e-15 {
		t.Errorf("%+v, %v: want 5 ± 1", s, err)
	}
	if _, err := Defaults().PoolSessions([]float64{5}, [][]float64{{5}, {6}}); !errors.Is(err, ErrNoSessions) {
		t.Errorf("nobody has two sessions: %v", err)
	}
	if _, err := Defaults().PoolSessions([]float64{5, -5}, nil); err == nil {
		t.Error("negative passes passed")
	}
	same5, err := Defaults().PoolSessions([]float64{5, 5}, [][]float64{{5, 5, 5}})
	if err != nil || same5.Variance <= 0 || same5.Mean != 5 {
		t.Errorf("always five: %+v, %v: some doubt must stay", same5, err)
	}
}

func TestScheduleAddsUp(t *testing.T) {
	practice, game := SessionPasses{5, .1, 4}, SessionPasses{12, .3, 9}
	days, err := Schedule([][]int{{1, 0}, {0, 0}, {1, 1}, {0, 2}}, []SessionPasses{practice, game})
	if err != nil {
		t.Fatal(err)
	}
	want := []Day{{5, 4 + .1}, {5, 4.1}, {22, 2*4 + 4*.1 + 9 + .3}, {46, 8.4 + 3*9 + 9*.3}}
	for i := range want {
		if math.Abs(days[i].Passes-want[i].Passes) > 1e-12 || math.Abs(days[i].Variance-want[i].Variance) > 1e-12 {
			t.Errorf("day %d: %+v, want %+v", i+1, days[i], want[i])
		}
	}
}

func TestScheduleRefuses(t *testing.T) {
	if _, err := Schedule(nil, nil); !errors.Is(err, ErrNoSchedule) {
		t.Errorf("no schedule: %v", err)
	}
	if _, err := Schedule([][]int{{1}}, nil); err == nil {
		t.Error("a session of an unknown kind passed")
	}
	if _, err := Schedule([][]int{{-1}}, make([]SessionPasses, 1)); err == nil {
		t.Error("a negative number of sessions passed")
	}
	if _, err := PlannedPasses(nil); !errors.Is(err, ErrNoSchedule) {
		t.Errorf("no plan: %v", err)
	}
	if _, err := PlannedPasses([]float64{5, -1}); err == nil {
		t.Error("negative passes were planned")
	}
}

func TestFirstDayBeyondTheSchedule(t *testing.T) {
	f, err := exampleConstants().Forecast(exampleQuestion(19.8, 18.7, 17.5))
	if err != nil {
		t.Fatal(err)
	}
	days, err := PlannedPasses([]float64{40, 40, 20, 10})
	if err != nil {
		t.Fatal(err)
	}
	for chance, want := range map[float64]int{.1: 2, .5: 3, .9: -1} { // 95.9, 105.1, 115.1 passes
		if day := firstDay(f, days, chance); day != want {
			t.Errorf("chance %v: day %d, want %d", chance, day, want)
		}
	}
}

// firstDay is the first day by whose end the chance of being due reaches a level, −1 for none.
func firstDay(f Forecast, days []Day, chance float64) int {
	return slices.IndexFunc(days, func(d Day) bool { return f.DueByDay(d) >= chance })
}
