package stats

import "testing"

// Source: R 4.2.2, survival 3.5.3, survfit with a factor as status. One minus
// Kaplan–Meier, .682 of cause 2 at 15, is what must not come out.
func TestAalenJohansen(t *testing.T) {
	ends := twelveEnds()
	steps, err := AalenJohansen(ends, 2)
	if err != nil {
		t.Fatal(err)
	}
	byTime := map[float64]IncidenceStep{}
	for _, s := range steps {
		byTime[s.Time] = s
	}
	for time, want := range map[float64][5]string{
		5:  {".75", ".166666666667", ".107582870728", ".083333333333", ".079785592313"},
		10: {".46875", ".354166666667", ".143268618304", ".177083333333", ".114009770283"},
		15: {".125", ".479166666667", ".159060373903", ".395833333333", ".156307859658"},
	} {
		s, found := byTime[time]
		if !found {
			t.Fatalf("no step at %v", time)
		}
		same(t, "survival", s.Survival, want[0])
		same(t, "incidence of cause 1", s.Incidence[0], want[1])
		same(t, "its se", s.SE[0], want[2])
		same(t, "incidence of cause 2", s.Incidence[1], want[3])
		same(t, "its se", s.SE[1], want[4])
	}
}

func twelveEnds() []End {
	times := []float64{3, 5, 5, 7, 8, 8, 10, 12, 12, 14, 15, 18}
	causes := []int{1, 2, 1, 0, 1, 2, 1, 2, 0, 1, 2, 0}
	var ends []End
	for i := range times {
		ends = append(ends, End{times[i], causes[i]})
	}
	return ends
}

func TestAalenJohansenRefuses(t *testing.T) {
	if _, err := AalenJohansen([]End{{4, 3}}, 2); err == nil {
		t.Error("an unknown cause was counted")
	}
	if _, err := AalenJohansen([]End{{0, 1}}, 2); err == nil {
		t.Error("a life of no length was counted")
	}
}
