package stats

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Source: F. Garwood, 1936; computed with R 4.2.2.
func TestPoissonIntervalsGarwood(t *testing.T) {
	rows := reference(t, "garwood.csv")
	for _, row := range rows {
		count := int(number(t, row, "x"))
		for level, suffix := range map[float64]string{.95: "95", .90: "90", .99: "99"} {
			i, err := PoissonInterval(count, level)
			if err != nil {
				t.Fatal(err)
			}
			same(t, "from, count "+row["x"], i.Low, strings.TrimSpace(row["lo"+suffix]))
			same(t, "to, count "+row["x"], i.High, strings.TrimSpace(row["hi"+suffix]))
		}
	}
}

// Source: R 4.2.2, binom.test.
func TestProportionIntervals(t *testing.T) {
	none, err1 := ProportionInterval(0, 10, .95)
	one, err2 := ProportionInterval(1, 10, .95)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	if none.Low != 0 {
		t.Errorf("none of ten: from %v", none.Low)
	}
	same(t, "0 of 10 to", none.High, ".308497107819")
	same(t, "1 of 10 from", one.Low, ".00252857854")
	same(t, "1 of 10 to", one.High, ".445016117")
}

// Source: R 4.2.2, poisson.test and binom.test.
func TestCompareRates(t *testing.T) {
	r, err := CompareRates(11, 800, 21, 3011, .95)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "ratio", r.Ratio, "1.97148810")
	same(t, "p", r.P, ".079668633")
	same(t, "from", r.Interval.Low, ".858426403")
	same(t, "to", r.Interval.High, "4.277265944")
	p, err := BinomialTest(3, 20, .35)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "3 of 20 at .35", p, ".06395495878134")
}

func TestCompareRatesAtTheEnds(t *testing.T) {
	r, err := CompareRates(4, 100, 0, 100, .95)
	if err != nil || !math.IsInf(r.Ratio, 1) || !math.IsInf(r.Interval.High, 1) || r.P != .125 {
		t.Errorf("4 against 0: %+v, %v, want an unbounded ratio and p .125", r, err)
	}
	if _, err := CompareRates(0, 100, 0, 100, .95); err == nil {
		t.Error("no incidents were compared")
	}
	if _, err := CompareRates(1, 0, 1, 100, .95); err == nil {
		t.Error("no exposure was compared")
	}
}

func TestLevelsAreShares(t *testing.T) {
	if _, err := PoissonInterval(3, 95); err == nil {
		t.Error("95 passed for a confidence")
	}
	if _, err := ProportionInterval(3, 2, .95); err == nil {
		t.Error("3 of 2 passed")
	}
}
