package stats

import (
	"errors"
	"math"
	"testing"
)

// The first: the project's reference table; all: R 4.2.2, every outcome listed
// with dmultinom.
func TestMultinomialAgainstEveryOutcome(t *testing.T) {
	for _, c := range []struct {
		counts    []int
		exposures []float64
		want      string
	}{
		{[]int{9, 3, 1}, []float64{900, 800, 700}, ".0642338963631"},
		{[]int{12, 5, 3, 9}, []float64{1000, 1200, 800, 600}, ".02107534577905"},
		{[]int{0, 0, 4, 1, 0}, []float64{300, 500, 200, 400, 100}, ".00381366255144"},
	} {
		p, err := MultinomialTest(c.counts, c.exposures)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "p", p, c.want)
	}
}

func TestMultinomialOfTwoIsBinomial(t *testing.T) {
	several, err1 := MultinomialTest([]int{11, 21}, []float64{800, 3011})
	two, err2 := BinomialTest(11, 32, 800.0/3811)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	if math.Abs(several-two) > 1e-12 {
		t.Errorf("multinomial %v, binomial %v", several, two)
	}
}

func TestMultinomialSaysWhenItIsTooLarge(t *testing.T) {
	counts, exposures := make([]int, 12), make([]float64, 12)
	for i := range counts {
		counts[i], exposures[i] = 40+i, 100+float64(i*i)
	}
	if _, err := MultinomialTest(counts, exposures); !errors.Is(err, ErrTooLarge) {
		t.Errorf("546 incidents in twelve groups: %v", err)
	}
	if _, err := MultinomialTest([]int{0, 0}, []float64{1, 1}); err == nil || errors.Is(err, ErrTooLarge) {
		t.Errorf("no incidents: %v", err)
	}
}

// The first: the project's reference table; all: R 4.2.2, every outcome listed.
func TestTrendAgainstEveryOutcome(t *testing.T) {
	exposures := []float64{400, 500, 450, 200}
	rising, err := TrendTest([]int{0, 1, 3, 4}, exposures, []float64{0, 1, 2, 3})
	if err != nil {
		t.Fatal(err)
	}
	same(t, "rising", rising.Rising, ".00161694648843")
	same(t, "falling", rising.Falling, ".999577619273524")
	same(t, "two-sided", rising.TwoSided, ".002870972469528")
	uneven, err := TrendTest([]int{6, 2, 3, 1}, exposures, []float64{16.25, 17.5, 18.9, 20.2})
	if err != nil {
		t.Fatal(err)
	}
	same(t, "uneven scores, rising", uneven.Rising, ".8848904008651")
	same(t, "falling", uneven.Falling, ".1204899467697")
	same(t, "two-sided", uneven.TwoSided, ".2665540828686")
}

func TestTrendRefuses(t *testing.T) {
	if _, err := TrendTest([]int{1, 2}, []float64{5, 5}, []float64{3, 3}); err == nil {
		t.Error("bands with one score have a trend")
	}
	if _, err := TrendTest([]int{1, 2}, []float64{5, 5}, []float64{3}); err == nil {
		t.Error("a band without a score passed")
	}
}

// Source: R. A. Fisher, The Design of Experiments, 1935, §21, Darwin's maize: of
// 32 768 ways 863 reach the sum 314 on either side, 5.267 % (from memory).
func TestSignFlipDarwin(t *testing.T) {
	p, err := SignFlip([]float64{49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48})
	if err != nil || p != 1726.0/32768 {
		t.Errorf("p %v, %v, want 1726/32768", p, err)
	}
}

func TestSignFlipLimits(t *testing.T) {
	if _, err := SignFlip(make([]float64, SignFlipLimit+1)); !errors.Is(err, ErrTooLarge) {
		t.Errorf("too many: %v", err)
	}
	if p, err := SignFlip([]float64{1, -1}); err != nil || p != 1 {
		t.Errorf("a sum of 0: %v, %v", p, err)
	}
	if p, err := SignFlip([]float64{.1, .2, .3}); err != nil || p != .25 {
		t.Errorf("all one way: %v, %v, want 1/4", p, err)
	}
}

// Source: S. Holm's rule; values of the project's reference table.
func TestHolm(t *testing.T) {
	got, err := Holm([]float64{.013, .001, .2, .012, .04})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{".048", ".005", ".200", ".048", ".080"} {
		same(t, "adjusted", got[i], want)
		if math.Abs(got[i]-[]float64{.048, .005, .2, .048, .08}[i]) > 1e-15 {
			t.Errorf("adjusted %v is not exact", got[i])
		}
	}
	if _, err := Holm([]float64{1.2}); err == nil {
		t.Error("1.2 passed for a p")
	}
}
