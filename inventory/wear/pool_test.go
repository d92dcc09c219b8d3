package wear

import (
	"testing"

	"steeltally/inventory/wear/stats"
)

// examplePairs are the four players of the reference example, from mean and
// difference of left and right; each side with half of .006 as variance.
func examplePairs() [][]PairWear {
	pair := func(mean, difference float64) PairWear {
		return PairWear{[]stats.Estimate{{Value: mean + difference/2, Variance: .003}, {Value: mean - difference/2, Variance: .003}}}
	}
	return [][]PairWear{
		{pair(-4, .05), pair(-3.9, -.02), pair(-4.05, .08), pair(-3.95, .01)},
		{pair(-3.7, -.06), pair(-3.85, .04)},
		nil,
		{pair(-4.2, .02), pair(-4.1, .1), pair(-4.3, -.03)},
	}
}

// Values: the project's reference table, computed with R 4.2.2.
func TestPoolReferenceExample(t *testing.T) {
	c := Defaults()
	c.ClubSpread = .35
	pool, err := c.NewPool(examplePairs())
	if err != nil {
		t.Fatal(err)
	}
	same(t, "pair spread", pool.PairSpread, ".0995951400")
	same(t, "side spread", pool.SideSpread, ".0298807152")
	for player, want := range map[int][7]string{
		2: {"-3.9824383907", ".2859944117", "9.0577313507", ".2335900484", ".0186401320", ".0125532234", ".0276785100"},
		0: {"-3.9752734063", ".1146131743", "15.6202344314", ".2575702181", ".0187741678", ".0161047027", ".0218861152"},
	} {
		prior, err := pool.Prior(player)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "mean", prior.Mean, want[0])
		same(t, "scale", prior.Scale, want[1])
		same(t, "freedom", prior.Freedom, want[2])
		same(t, "player spread", prior.PlayerSpread, want[3])
		middle, span := prior.Loss(.8)
		same(t, "loss", middle, want[4])
		same(t, "from", span.Low, want[5])
		same(t, "to", span.High, want[6])
	}
}
