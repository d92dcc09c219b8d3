package review

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"steeltally/inventory"
)

// holder is a holder of a lot, on a boot for so many daily sessions; broken or not.
func (b *bench) holder(lot string, side inventory.Side, sessions int, broken bool) *Life {
	b.made++
	n, err := inventory.NewNumber(inventory.KindHolder, 1, b.made)
	if err != nil {
		b.t.Fatal(err)
	}
	life := &Life{Number: n, Model: "Petrel H", Lot: lot, Side: side, In: day(0), InUse: !broken}
	for i := range 100 {
		life.counts = append(life.counts, day(i).Start)
	}
	life.spans = []span{{day(0).Start, day(sessions).Start}}
	life.Times = &sessions
	if broken {
		life.Damages = []inventory.Dated[inventory.Damaged]{{When: day(sessions), Value: inventory.Damaged{Piece: n, Mode: "crack", Zone: "rear-tower", Unsafe: true}}}
	}
	return life
}

// TestWeakLot calls a lot of which most broke while hardly one of the others did, and
// gives its rate over all its sessions, unbroken ones included.
func TestWeakLot(t *testing.T) {
	b := &bench{t: t}
	var lives []*Life
	for i := range 20 {
		lives = append(lives, b.holder("HP7", inventory.Left, 50, i < 9))
	}
	for i := range 80 {
		lives = append(lives, b.holder("HP8", inventory.Left, 50, i < 1))
	}
	review := compile(t, lives)
	f := finding(t, review, "lot", "HP7")
	if f.Verdict != Differs || f.N != 9 || math.Abs(f.Middle-9) > 1e-9 || !strings.Contains(f.Words, "9 of 20") || !strings.Contains(f.Words, "1 of 80, 0.2") {
		t.Errorf("%+v", f)
	}
	// Exact Poisson interval of 9: 5.4325 to 14.206 at 80 % (R 4.2.2, qgamma(.1, 9), qgamma(.9, 10)).
	if math.Abs(f.Low-5.43247) > 1e-4 || math.Abs(f.High-14.2060) > 1e-4 {
		t.Errorf("interval %v to %v", f.Low, f.High)
	}
}

// TestFewIncidentsSayNothing: one broken of three is no finding.
func TestFewIncidentsSayNothing(t *testing.T) {
	b := &bench{t: t}
	lives := []*Life{b.holder("HP7", inventory.Left, 50, true), b.holder("HP7", inventory.Right, 50, false)}
	for range 10 {
		lives = append(lives, b.holder("HP8", inventory.Right, 50, false))
	}
	for _, f := range compile(t, lives).Findings {
		if f.Verdict != CantSay {
			t.Errorf("%+v", f)
		}
	}
}

// TestRatioOfSums checks the estimator by hand: 1.1 and 2.3 lost, 1 and 2 expected:
// ratio 3.4/3; residuals −.0333, .0333; standard error √(2·.0022222)/3.
func TestRatioOfSums(t *testing.T) {
	ratio, se := lossRatio([]stretch{{1.1, 1}, {2.3, 2}})
	if math.Abs(ratio-3.4/3) > 1e-12 || math.Abs(se-math.Sqrt(2*2*0.1/3*0.1/3)/3) > 1e-12 {
		t.Errorf("%v ± %v", ratio, se)
	}
}

// TestHandsDiffer calls a machine that takes a third more off.
func TestHandsDiffer(t *testing.T) {
	byName := map[string][]stretch{}
	for i := range 40 {
		wobble := 0.02 * float64(i%5-2)
		byName["wheel 1"] = append(byName["wheel 1"], stretch{1 + wobble, 1})
		byName["wheel 2"] = append(byName["wheel 2"], stretch{1.3 + wobble, 1})
	}
	hands := []Hand{{Name: "wheel 1", Stretches: 40, Verdict: CantSay}, {Name: "wheel 2", Stretches: 40, Verdict: CantSay}}
	if err := compareHands(hands, byName); err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{1 / 1.15, 1.3 / 1.15} {
		if math.Abs(hands[i].Ratio-want) > 1e-9 || hands[i].Verdict != Differs || hands[i].Low >= want || hands[i].High <= want {
			t.Errorf("%+v, want a ratio of %v", hands[i], want)
		}
	}
}

// TestBreaksByHeight reads heights at grinds off the record's line.
func TestBandEdges(t *testing.T) {
	if got := fmt.Sprint(bandEdges([]millimetre{15.2, 20.9, 17})); got != "[14.00 mm 16.00 mm 18.00 mm 20.00 mm 22.00 mm]" {
		t.Errorf("edges %s", got)
	}
}
