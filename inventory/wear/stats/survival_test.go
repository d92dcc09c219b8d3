package stats

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
)

// lives reads one group of a survival data set.
func lives(t *testing.T, file, group string) []Life {
	t.Helper()
	var found []Life
	for _, row := range reference(t, file) {
		if group == "" || row["x"] == group {
			found = append(found, Life{number(t, row, "time"), row["status"] == "1"})
		}
	}
	if len(found) < 5 {
		t.Fatalf("%s has %d of %q", file, len(found), group)
	}
	return found
}

// Tables: R 4.2.2, survival 3.5.3; AML also in Miller, 1981, Freireich (1963) in
// the manual of a numerical library.
func TestKaplanMeierPublishedTables(t *testing.T) {
	for _, c := range []struct{ data, table, group string }{
		{"aml.csv", "aml_km.csv", "Maintained"}, {"aml.csv", "aml_km.csv", "Nonmaintained"},
		{"freireich.csv", "freireich_km.csv", "6-MP"}, {"freireich.csv", "freireich_km.csv", "placebo"},
	} {
		steps, err := KaplanMeier(lives(t, c.data, c.group), .95)
		if err != nil {
			t.Fatal(err)
		}
		compared := 0
		for _, row := range reference(t, c.table) {
			if row["strata"] == "x="+c.group {
				compareStep(t, steps[compared], row)
				compared++
			}
		}
		if compared != len(steps) || compared == 0 {
			t.Errorf("%s: %d steps, %d in the table", c.group, len(steps), compared)
		}
	}
}

func compareStep(t *testing.T, s SurvivalStep, row map[string]string) {
	t.Helper()
	for heading, got := range map[string]float64{
		"time": s.Time, "n.risk": float64(s.AtRisk), "n.event": float64(s.Ended), "n.censor": float64(s.Censored),
		"surv": s.Survival, "std.err": s.SE, "lower": s.Interval.Low, "upper": s.Interval.High,
		"cumhaz": s.Hazard, "std.chaz": s.HazardSE,
	} {
		want := strings.TrimSpace(row[heading])
		if want == "NaN" || want == "NA" {
			if s.Survival != 0 || math.IsNaN(got) {
				t.Errorf("%s at %v: %v where the table has none", heading, s.Time, got)
			}
			continue
		}
		same(t, heading+" at "+row["time"], got, want)
	}
}

// Medians: R 4.2.2, survival 3.5.3.
func TestMedianLives(t *testing.T) {
	for _, c := range []struct {
		data, group string
		want        float64
	}{
		{"aml.csv", "Maintained", 31}, {"aml.csv", "Nonmaintained", 23},
		{"freireich.csv", "6-MP", 23}, {"freireich.csv", "placebo", 8},
	} {
		steps, err := KaplanMeier(lives(t, c.data, c.group), .95)
		if err != nil {
			t.Fatal(err)
		}
		if got, known := MedianLife(steps); !known || got != c.want {
			t.Errorf("%s: median %v (%v), want %v", c.group, got, known, c.want)
		}
	}
}

func TestMedianLifeUnknownOrBetween(t *testing.T) {
	young, err := KaplanMeier([]Life{{1, true}, {2, false}, {3, false}}, .9)
	if err != nil {
		t.Fatal(err)
	}
	if _, known := MedianLife(young); known {
		t.Error("two of three still live, yet the median is known")
	}
	even, err := KaplanMeier([]Life{{1, true}, {2, true}, {4, true}, {5, true}}, .9)
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := MedianLife(even); got != 3 {
		t.Errorf("half have ended from 2 to 4: median %v, want 3", got)
	}
}

// Source: R 4.2.2, survival 3.5.3, survdiff.
func TestLogRankPublished(t *testing.T) {
	aml, err := LogRank([][]Life{lives(t, "aml.csv", "Maintained"), lives(t, "aml.csv", "Nonmaintained")})
	if err != nil {
		t.Fatal(err)
	}
	same(t, "AML χ²", aml.ChiSquare, "3.396388699")
	same(t, "AML p", aml.P, ".065339322")
	freireich, err := LogRank([][]Life{lives(t, "freireich.csv", "6-MP"), lives(t, "freireich.csv", "placebo")})
	if err != nil {
		t.Fatal(err)
	}
	same(t, "Freireich χ²", freireich.ChiSquare, "16.7929409892")
	same(t, "Freireich p", freireich.P, "4.16880911e-5")
}

// Source: R 4.2.2, survival 3.5.3, survdiff over both data sets.
func TestLogRankThreeGroups(t *testing.T) {
	r, err := LogRank([][]Life{lives(t, "freireich.csv", "6-MP"), lives(t, "aml.csv", ""), lives(t, "freireich.csv", "placebo")})
	if err != nil || r.Freedom != 2 {
		t.Fatalf("%+v, %v", r, err)
	}
	same(t, "χ²", r.ChiSquare, "30.696313214298")
	same(t, "p", r.P, "2.15963460667e-07")
	for i, want := range []string{"15.0957206339821", "25.1577973779652", "7.7464819880527"} {
		same(t, "expected", r.Expected[i], want)
	}
}

func TestLogRankRefuses(t *testing.T) {
	if _, err := LogRank([][]Life{{{1, true}}}); err == nil {
		t.Error("one group was compared")
	}
	if _, err := LogRank([][]Life{{{1, false}}, {{2, false}}}); err == nil {
		t.Error("groups without an end were compared")
	}
}

// Source: R 4.2.2, survival 3.5.3, survfit with a factor as status. One minus
// Kaplan–Meier is what must not come out.
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
	same(t, "one minus Kaplan–Meier, cause 2", 1-kaplanMeierOf(t, ends, 2, 15), ".681818")
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

func kaplanMeierOf(t *testing.T, ends []End, cause int, at float64) float64 {
	t.Helper()
	var single []Life
	for _, e := range ends {
		single = append(single, Life{e.Time, e.Cause == cause})
	}
	steps, err := KaplanMeier(single, .95)
	if err != nil {
		t.Fatal(err)
	}
	survival := 1.0
	for _, s := range steps {
		if s.Time <= at {
			survival = s.Survival
		}
	}
	return survival
}

func TestAalenJohansenRefuses(t *testing.T) {
	if _, err := AalenJohansen([]End{{4, 3}}, 2); err == nil {
		t.Error("an unknown cause was counted")
	}
	if _, err := AalenJohansen([]End{{0, 1}}, 2); err == nil {
		t.Error("a life of no length was counted")
	}
}

// Source: R 4.2.2, survival 3.5.3, survreg. By default it stops when the
// likelihood settles to 1e-9, which leaves the parameters good to about 2e-10;
// the second line of each is the same carried on (rel.tolerance 1e-15).
func TestWeibullCensored(t *testing.T) {
	for _, c := range []struct {
		data, group    string
		usual, settled [3]string
	}{
		{"freireich.csv", "6-MP", [3]string{"1.35373452383", "33.7651509677", "-41.6586784769"},
			[3]string{"1.35373452382622", "33.76515096763497", "-41.65867847688155"}},
		{"freireich.csv", "placebo", [3]string{"1.37049985947", "9.48214125425", "-64.920107589"},
			[3]string{"1.37049985928294", "9.48214125553667", "-64.92010758901239"}},
		{"aml.csv", "", [3]string{"1.09660908581", "38.1868109958", "-83.1786692328"},
			[3]string{"1.09660908580279", "38.18681099572842", "-83.17866923280523"}},
	} {
		f, err := Weibull(lives(t, c.data, c.group))
		if err != nil {
			t.Fatal(err)
		}
		for i, got := range []float64{f.Shape, f.Scale, f.LogLikelihood} {
			what := c.data + " " + c.group + " " + []string{"shape", "scale", "log-likelihood"}[i]
			nearDefault, err := strconv.ParseFloat(c.usual[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			within(t, what, got, nearDefault, 2e-10)
			settled, err := strconv.ParseFloat(c.settled[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			within(t, what, got, settled, 1e-13)
		}
	}
}

func TestWeibullRefuses(t *testing.T) {
	if _, err := Weibull([]Life{{3, false}, {5, false}}); !errors.Is(err, ErrNoEnds) {
		t.Errorf("no ends: %v", err)
	}
	if _, err := Weibull([]Life{{3, true}, {3, true}}); err == nil {
		t.Error("ends at one time were given a shape")
	}
}
