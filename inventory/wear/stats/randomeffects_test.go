package stats

import (
	"math"
	"testing"
)

func vaccineTrials(t *testing.T) []Estimate {
	t.Helper()
	var parts []Estimate
	for _, row := range reference(t, "bcg.csv") {
		parts = append(parts, Estimate{number(t, row, "yi"), number(t, row, "vi")})
	}
	if len(parts) != 13 {
		t.Fatalf("%d trials, want 13", len(parts))
	}
	return parts
}

// Data: Colditz et al., 1994. Values: R 4.2.2, metafor 3.8, rma(method "REML"),
// which stops at steps of 1e-5.
func TestREMLVaccineTrials(t *testing.T) {
	e, err := REML(vaccineTrials(t), 1e-5)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "mean", e.Mean, "-0.714532348365")
	same(t, "se", e.SE, "0.17978153178")
	same(t, "τ²", e.Tau2, "0.313243325981")
	shrunk := e.Shrunken()
	for trial, want := range map[int][2]string{
		1: {"-0.8002", "0.4099"}, 7: {"-1.2440", "0.3686"}, 8: {"0.0029", "0.0626"}, 12: {"-0.2847", "0.4583"},
	} {
		same(t, "shrunken estimate", shrunk[trial-1].Value, want[0])
		same(t, "its se", math.Sqrt(shrunk[trial-1].Variance), want[1])
	}
}

// The same, carried on to the last digit: R 4.2.2, the scoring formulas written
// out with matrices.
func TestREMLSettled(t *testing.T) {
	e, err := REML(vaccineTrials(t), 0)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "mean", e.Mean, "-0.7145323421581")
	same(t, "se", e.SE, "0.1797815161052")
	same(t, "τ²", e.Tau2, "0.3132432581365")
}

// Values: R 4.2.2, metafor 3.8, rma(method "DL") and "FE".
func TestDerSimonianLairdVaccineTrials(t *testing.T) {
	e, err := DerSimonianLaird(vaccineTrials(t))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "mean", e.Mean, "-0.714117222073")
	same(t, "τ²", e.Tau2, "0.308760262862")
	same(t, "Q", e.Q, "152.233008082")
	same(t, "fixed effect", e.Fixed, "-0.430285163654")
}

func TestPoolingWithoutSpread(t *testing.T) {
	alike := []Estimate{{2, .1}, {2, .3}, {2, .2}}
	settled := func(parts []Estimate) (Effects, error) { return REML(parts, 0) }
	for name, pool := range map[string]func([]Estimate) (Effects, error){"DL": DerSimonianLaird, "REML": settled} {
		e, err := pool(alike)
		if err != nil || e.Tau2 != 0 || e.Mean != 2 {
			t.Errorf("%s: %+v, %v: want mean 2 without spread", name, e, err)
		}
		if _, err := pool(nil); err == nil {
			t.Errorf("%s pooled nothing", name)
		}
		if _, err := pool([]Estimate{{1, 0}, {2, 1}}); err == nil {
			t.Errorf("%s took a variance of 0", name)
		}
	}
}
