package trend

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"steeltally/inventory/wear/truth"
)

var full = flag.Bool("full", false, "simulate 1,000 seasons and print the table")

const (
	months          = 7
	nullPlayers     = 21
	pairsPerMonth   = 2
	noDifference    = 0.0
	lossMeasurement = 0.02 // relative error of a loss measured over a whole life
)

// measuredLosses are those of a pair's left and right runner; the left loses
// more by a true log difference.
func measuredLosses(r *rand.Rand, club truth.Club, p truth.Player, difference float64) (left, right float64) {
	pair := club.NewPair(r, p)
	left = pair.Left.LossPerPass * math.Exp(difference+lossMeasurement*r.NormFloat64())
	return left, pair.Right.LossPerPass * math.Exp(lossMeasurement*r.NormFloat64())
}

// season tells by which rules somebody was said to differ at one of the monthly
// looks, where nobody does.
func season(t *testing.T, r *rand.Rand) (raw, holm, planned bool) {
	club := truth.Stated().NewClub(r)
	left, right := make([][]float64, nullPlayers), make([][]float64, nullPlayers)
	players := make([]truth.Player, nullPlayers)
	for i := range players {
		players[i] = club.NewPlayer(r)
	}
	for range months {
		var ps []float64
		for i, player := range players {
			for range pairsPerMonth {
				l, k := measuredLosses(r, club, player, noDifference)
				left[i], right[i] = append(left[i], l), append(right[i], k)
			}
			s, err := CompareSides(left[i], right[i], .8, UsualPlan().LevelAtLook())
			if err != nil {
				t.Fatal(err)
			}
			ps = append(ps, s.P)
			raw = raw || s.P < .05
		}
		holm = holm || anyDiffers(t, Plan{Level: .05, Looks: 1}, ps)
		planned = planned || anyDiffers(t, UsualPlan(), ps)
	}
	return raw, holm, planned
}

func anyDiffers(t *testing.T, p Plan, ps []float64) bool {
	t.Helper()
	verdicts, err := p.Differs(ps)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range verdicts {
		if v {
			return true
		}
	}
	return false
}

// In a season without differences "differs" appears in at most 5 % of seasons;
// that raw looks would cry wolf nearly always shows that the seasons are real.
func TestNullSeasonsStaySilent(t *testing.T) {
	seasons := 300
	if *full {
		seasons = 1000
	}
	r := rand.New(rand.NewPCG(2024, 7))
	var raw, holm, planned float64
	for range seasons {
		byRaw, byHolm, byPlan := season(t, r)
		raw, holm, planned = raw+share(byRaw, seasons), holm+share(byHolm, seasons), planned+share(byPlan, seasons)
	}
	if *full {
		t.Logf("%d null seasons with somebody called different: raw p < .05 %.1f %%, Holm at each look %.1f %%, Holm with level/looks %.1f %%",
			seasons, 100*raw, 100*holm, 100*planned)
	}
	if planned > .05 {
		t.Errorf("somebody is said to differ in %.1f %% of null seasons, at most 5 allowed", 100*planned)
	}
	if raw < .9 || holm < planned {
		t.Errorf("raw looks flag %.2f, Holm %.2f, the plan %.2f of seasons: the simulation shows no danger", raw, holm, planned)
	}
}

// A left foot that wears 10 % faster shows in sixteen pairs, before allowances.
func TestPowerOfSixteenPairs(t *testing.T) {
	const trials, pairs = 1000, 16
	r := rand.New(rand.NewPCG(2024, 16))
	found, covered := 0.0, 0.0
	for range trials {
		club := truth.Stated().NewClub(r)
		player := club.NewPlayer(r)
		var left, right []float64
		for range pairs {
			l, k := measuredLosses(r, club, player, math.Log(1.1))
			left, right = append(left, l), append(right, k)
		}
		s, err := CompareSides(left, right, .8, .05)
		if err != nil {
			t.Fatal(err)
		}
		found += share(s.P < .05, trials)
		covered += share(s.Interval.Contains(1.1), trials)
	}
	if *full {
		t.Logf("10 %% difference in %d pairs: found in %.1f %%; the 80 %% interval held in %.1f %%", pairs, 100*found, 100*covered)
	}
	if found < .75 {
		t.Errorf("found in %.1f %% of trials, at least 75 wanted", 100*found)
	}
	if covered < .76 || covered > .84 {
		t.Errorf("the 80 %% interval held in %.1f %%", 100*covered)
	}
}

func share(happened bool, of int) float64 {
	if happened {
		return 1 / float64(of)
	}
	return 0
}
