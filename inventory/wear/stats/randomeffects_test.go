package stats

import "testing"

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

// Data: Colditz et al., 1994. Values: R 4.2.2, metafor 3.8, rma(method "DL") and "FE".
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
	e, err := DerSimonianLaird([]Estimate{{2, .1}, {2, .3}, {2, .2}})
	if err != nil || e.Tau2 != 0 || e.Mean != 2 {
		t.Errorf("%+v, %v: want mean 2 without spread", e, err)
	}
	if _, err := DerSimonianLaird(nil); err == nil {
		t.Error("nothing was pooled")
	}
	if _, err := DerSimonianLaird([]Estimate{{1, 0}, {2, 1}}); err == nil {
		t.Error("a variance of 0 passed")
	}
}
