package wear_test

import (
	"math/rand/v2"
	"testing"
)

// Over the invented clubs the self-check says what is true: about eight of ten
// forecasts held.
func TestSelfCheckOverClubs(t *testing.T) {
	checked, held := 0, 0
	for i := range 2 * clubs() {
		r := rand.New(rand.NewPCG(60, uint64(i)))
		s := newSimClub(r, history{pairs: 6}.earlierPairs(r), 0)
		known, err := s.learn(nil)
		if err != nil {
			t.Fatal(err)
		}
		c, err := known.LookBack(60)
		if err != nil {
			t.Fatal(err)
		}
		if c.Checked > 60 {
			t.Errorf("club %d: %d forecasts were checked, the last 60 were asked for", i, c.Checked)
		}
		checked, held = checked+c.Checked, held+c.Held
	}
	if checked < 40*clubs() {
		t.Fatalf("only %d past forecasts of %d clubs could be checked", checked, 2*clubs())
	}
	report(t, "of %d past forecasts %d held", checked, held)
	between(t, "past forecasts held", float64(held)/float64(checked), .74, .86, .04)
}
