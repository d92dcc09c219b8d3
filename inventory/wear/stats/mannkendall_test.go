package stats

import (
	"errors"
	"math"
	"testing"
)

// everyOrder gives P by listing all orders of the values over the times: the
// same answer by no cleverness.
func everyOrder(times, values []float64) (p float64) {
	counts, orders := map[int]float64{}, 0.0
	observed := kendallS(times, values)
	var permute func(order []float64, k int)
	permute = func(order []float64, k int) {
		if k == len(order) {
			counts[kendallS(times, order)]++
			orders++
			return
		}
		for i := k; i < len(order); i++ {
			order[k], order[i] = order[i], order[k]
			permute(order, k+1)
			order[k], order[i] = order[i], order[k]
		}
	}
	permute(append([]float64(nil), values...), 0)
	for _, n := range counts {
		if n <= counts[observed] {
			p += n / orders
		}
	}
	return p
}

func TestMannKendallAgainstEveryOrder(t *testing.T) {
	for name, s := range map[string]Stratum{
		"no ties":    {[]float64{1, 2, 3, 4, 5, 6, 7}, []float64{15.5, 15.1, 15.3, 14.9, 15.0, 14.7, 14.8}},
		"tied value": {[]float64{1, 2, 3, 4, 5, 6, 7}, []float64{15.5, 15.1, 15.1, 15.1, 15.0, 14.7, 14.7}},
		"tied time":  {[]float64{1, 1, 2, 3, 3, 3, 4}, []float64{15.5, 15.1, 15.3, 14.9, 15.0, 14.7, 14.8}},
		"both tie":   {[]float64{1, 1, 2, 2, 3, 3, 3, 4}, []float64{15.5, 15.1, 15.1, 14.9, 15.0, 14.9, 14.8, 14.8}},
	} {
		r, err := MannKendall([]Stratum{s})
		if err != nil {
			t.Fatal(err)
		}
		if want := everyOrder(s.Times, s.Values); math.Abs(r.P-want) > 1e-12 {
			t.Errorf("%s: p %.15g, every order gives %.15g", name, r.P, want)
		}
	}
}

// Source: M. G. Kendall, Rank Correlation Methods, table of S (from memory):
// seven values, S of 13 or more: .035; ten values, S of 21 or more: .036.
func TestMannKendallTable(t *testing.T) {
	seven := Stratum{[]float64{1, 2, 3, 4, 5, 6, 7}, []float64{2, 3, 1, 5, 4, 7, 6}} // four inversions
	r, err := MannKendall([]Stratum{seven})
	if err != nil || r.S != 13 {
		t.Fatalf("S %d, %v, want 13", r.S, err)
	}
	same(t, "chance of 13 or more", r.Rise, ".035")
	ten := Stratum{[]float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, []float64{3, 2, 1, 6, 5, 4, 10, 9, 8, 7}} // twelve inversions
	if r, err = MannKendall([]Stratum{ten}); err != nil || r.S != 21 {
		t.Fatalf("S %d, %v, want 21", r.S, err)
	}
	same(t, "chance of 21 or more", r.Rise, ".036")
}

// Source: R 4.2.2, cor.test(method "kendall", exact).
func TestMannKendallAgainstR(t *testing.T) {
	r, err := MannKendall([]Stratum{{[]float64{1, 2, 3, 4, 5, 6, 7, 8}, []float64{15.5, 15.1, 15.3, 14.9, 15.0, 14.7, 14.8, 15.2}}})
	if err != nil {
		t.Fatal(err)
	}
	same(t, "p", r.P, ".17886904761905")
}

// Two strata add their S and never compare across; the joint distribution is
// listed by hand: two strata of two values give S −2, 0, 2 with 1/4, 1/2, 1/4.
func TestMannKendallStrataAdd(t *testing.T) {
	r, err := MannKendall([]Stratum{
		{[]float64{1, 2}, []float64{10, 11}}, {[]float64{1, 2}, []float64{1, 2}}, {[]float64{9}, []float64{99}},
	})
	if err != nil || r.S != 2 || r.Rise != .25 || r.P != .5 || r.Pairs != 2 {
		t.Errorf("%+v, %v", r, err)
	}
}

func TestMannKendallRefuses(t *testing.T) {
	if _, err := MannKendall([]Stratum{{[]float64{1}, []float64{2}}}); err == nil {
		t.Error("one value has a trend")
	}
	if _, err := MannKendall([]Stratum{{[]float64{1, 2}, []float64{2, 2}}}); err == nil {
		t.Error("equal values have a trend")
	}
	long := Stratum{make([]float64, 400), make([]float64, 400)}
	for i := range long.Times {
		long.Times[i], long.Values[i] = float64(i), float64(i*i%401)
	}
	if _, err := MannKendall([]Stratum{long}); !errors.Is(err, ErrTooLarge) {
		t.Errorf("400 values: %v", err)
	}
}
