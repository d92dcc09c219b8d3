package truth

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"
	"steeltally/geometry"
)

func source() *rand.Rand { return rand.New(rand.NewPCG(11, 15)) }

// near fails unless got is within four standard errors of want.
func near(t *testing.T, what string, got, want, standardError float64) {
	t.Helper()
	if math.Abs(got-want) > 4*standardError {
		t.Errorf("%s is %.4f, want %.4f ± %.4f", what, got, want, standardError)
	}
}

func TestPairsSpreadAsStated(t *testing.T) {
	r := source()
	club := Stated().NewClub(r)
	player := club.NewPlayer(r)
	const n = 20_000
	var means, differences, heights []float64
	for range n {
		pair := club.NewPair(r, player)
		left, right := math.Log(pair.Left.LossPerPass), math.Log(pair.Right.LossPerPass)
		means = append(means, (left+right)/2)
		differences = append(differences, left-right)
		heights = append(heights, float64(pair.Left.New))
	}
	pairs := math.Hypot(club.PairSpread, club.SideSpread/math.Sqrt2)
	near(t, "mean log wear", stat.Mean(means, nil), player.LogWear, pairs/math.Sqrt(n))
	near(t, "spread of pairs", stat.StdDev(means, nil), pairs, pairs/math.Sqrt(2*n))
	sides := club.SideSpread * math.Sqrt2
	near(t, "spread of left minus right", stat.StdDev(differences, nil), sides, sides/math.Sqrt(2*n))
	near(t, "new height", stat.Mean(heights, nil), 21, .25/math.Sqrt(n))
}

func TestGrindSpreadIsPartlyShared(t *testing.T) {
	r := source()
	club := Stated().NewClub(r)
	const n = 20_000
	var left, right []float64
	for range n {
		pair := Pair{Left: Runner{LossPerPass: .02}, Right: Runner{LossPerPass: .02}}
		club.GrindPair(r, &pair, 5)
		left = append(left, -float64(pair.Left.Height))
		right = append(right, -float64(pair.Right.Height))
	}
	near(t, "loss of five passes", stat.Mean(left, nil), .1, .015/math.Sqrt(n))
	near(t, "its spread", stat.StdDev(left, nil), .015, .015/math.Sqrt(2*n))
	near(t, "correlation of left and right", stat.Correlation(left, right, nil), .5, .75/math.Sqrt(n))
}

func TestCaliperReadsInSteps(t *testing.T) {
	r := source()
	caliper := Caliper{Spread: .055, Step: .1, SlipSpread: .6}
	const n = 20_000
	var sound, careless []float64
	for range n {
		reading := float64(caliper.Measure(r, 17.234))
		if math.Abs(reading*10-math.Round(reading*10)) > 1e-9 {
			t.Fatalf("%v is not a whole step", reading)
		}
		sound = append(sound, reading)
		careless = append(careless, float64(caliper.MeasureCarelessly(r, 17.234, 1)))
	}
	spread := math.Sqrt(.055*.055 + .1*.1/12)
	near(t, "mean reading", stat.Mean(sound, nil), 17.234, spread/math.Sqrt(n))
	near(t, "spread of a sound reading", stat.StdDev(sound, nil), spread, spread/math.Sqrt(2*n))
	slipping := math.Hypot(spread, .6)
	near(t, "spread with slips", stat.StdDev(careless, nil), slipping, slipping/math.Sqrt(2*n))
}

func TestWildReadingsAreAnyHeight(t *testing.T) {
	r := source()
	caliper := Caliper{Spread: .03, WildShare: 1}
	const n = 20_000
	var wild []float64
	for range n {
		wild = append(wild, float64(caliper.MeasureCarelessly(r, 17, 1)))
	}
	spread := (wildHigh - wildLow) / math.Sqrt(12)
	near(t, "mean of wild readings", stat.Mean(wild, nil), (wildLow+wildHigh)/2, spread/math.Sqrt(n))
	near(t, "their spread", stat.StdDev(wild, nil), spread, spread/math.Sqrt(n))
}

func TestSameSeedSameClub(t *testing.T) {
	draw := func() (Club, Pair, geometry.Millimetre) {
		r := source()
		club := Stated().NewClub(r)
		pair := club.NewPair(r, club.NewPlayer(r))
		club.GrindPair(r, &pair, club.UsualPasses)
		return club, pair, club.Caliper.Measure(r, pair.Left.Height)
	}
	_, pair, reading := draw()
	_, again, reread := draw()
	if pair != again || reading != reread {
		t.Errorf("two draws of one seed differ: %+v, %+v", pair, again)
	}
}
