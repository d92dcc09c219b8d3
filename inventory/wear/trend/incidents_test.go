package trend

import (
	"math"
	"testing"

	"steeltally/geometry"
)

// p: the project's reference table (R 4.2.2). Interval: R 4.2.2, poisson.test.
func TestIncidentsByLot(t *testing.T) {
	got, err := CompareIncidents([]Group{{9, 900}, {3, 800}, {1, 700}}, .95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "p", got.P, .0642338963631, 5e-14)
	near(t, "rate", got.Rates[0].PerThousand, 10, 1e-12)
	r, err := RateOf(Group{3, 412}, .95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "from", r.Interval.Low, 1.50163136635, 1e-9)
	near(t, "to", r.Interval.High, 21.27978900423, 1e-9)
}

// Source: R 4.2.2, power by pbinom at the critical count of binom.test.
func TestIncidentsDetectable(t *testing.T) {
	a, err := CompareWithRest(Group{12, 250}, Group{28, 750}, .95, .05)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ratio", a.Ratio, 12.0/250*750/28, 1e-12)
	near(t, "detectable", a.Detectable, 2.49361003839, 1e-7)
	few, err := CompareWithRest(Group{1, 250}, Group{0, 750}, .95, .05)
	if err != nil || !math.IsInf(few.Detectable, 1) {
		t.Errorf("one incident: %+v, %v: no ratio could show", few, err)
	}
}

func TestIncidentsRefuse(t *testing.T) {
	if _, err := CompareIncidents([]Group{{1, 10}}, .95); err == nil {
		t.Error("one group was compared")
	}
	if _, err := CompareIncidents([]Group{{1, 10}, {2, 0}}, .95); err == nil {
		t.Error("a group without sessions was compared")
	}
}

// Source: the project's reference table (R 4.2.2): breaks 0, 1, 3, 4 in 400,
// 500, 450, 200 grinds, from the highest band to the lowest.
func TestBreaksByHeight(t *testing.T) {
	edges := []geometry.Millimetre{15, 16, 17, 18, 19}
	var grinds, breaks []geometry.Millimetre
	add := func(list *[]geometry.Millimetre, h geometry.Millimetre, n int) {
		for range n {
			*list = append(*list, h)
		}
	}
	for i, n := range []int{200, 450, 500, 400} {
		add(&grinds, edges[i], n)
	}
	for i, n := range []int{4, 3, 1, 0} {
		add(&breaks, edges[i]+.5, n)
	}
	got, err := BreaksByHeight(append(grinds, 30), breaks, edges, .95)
	if err != nil || !got.Tested || got.Outside != 1 {
		t.Fatalf("%+v, %v", got, err)
	}
	near(t, "lower steel breaks more", got.Trend.Falling, .00161694648843, 5e-15)
	near(t, "rate of the lowest band", got.Bands[0].Rate.PerThousand, 20, 1e-12)
	if _, err := BreaksByHeight(grinds[:200], breaks, edges, .95); err == nil {
		t.Error("breaks in a band without a grind passed")
	}
	if _, err := BreaksByHeight(grinds, breaks, edges[:1], .95); err == nil {
		t.Error("one edge made a band")
	}
	whole, err := BreaksByHeight(grinds, nil, edges, .95)
	if err != nil || whole.Tested {
		t.Errorf("nothing broke: %+v, %v", whole, err)
	}
}
