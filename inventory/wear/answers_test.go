package wear

import (
	"errors"
	"math"
	"testing"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

func passesLeft(t *testing.T, f interface {
	PassesLeft(float64) (float64, error)
}) [3]float64 {
	t.Helper()
	var left [3]float64
	for i, chance := range []float64{.1, .5, .9} {
		var err error
		if left[i], err = f.PassesLeft(chance); err != nil {
			t.Fatal(err)
		}
	}
	return left
}

// questionOfPair is the reference example with a side spread and a partner.
func questionOfPair() (own, partner Question) {
	own, partner = exampleQuestion(19.8, 18.7, 17.5), exampleQuestion(19.9, 18.6, 17.2)
	own.Prior.SideSpread, partner.Prior.SideSpread = .05, .05
	own.Partner, partner.Partner = partner.Own, own.Own
	return own, partner
}

// Values here: R 4.2.2, the stated formulas written anew in it.

func TestForecastWithPartner(t *testing.T) {
	own, partner := questionOfPair()
	later := own
	later.Since = 25
	for _, c := range []struct {
		q    Question
		want [3]string
	}{
		{own, [3]string{"92.4582754", "100.8235545", "109.7520719"}},
		{partner, [3]string{"74.3520813", "81.4832330", "89.3515297"}},
		{later, [3]string{"67.4582754", "75.8235545", "84.7520719"}},
	} {
		f, err := exampleConstants().Forecast(c.q)
		if err != nil {
			t.Fatal(err)
		}
		for i, got := range passesLeft(t, f) {
			sameTo(t, "passes left", got, c.want[i], 2e-6)
		}
	}
}

func TestForecastLooksAhead(t *testing.T) {
	f, err := exampleConstants().Forecast(exampleQuestion(19.8, 18.7, 17.5))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "loss", f.Loss, ".0191844387153")
	same(t, "height", f.Height, "17.5147619679347")
	same(t, "due by 100 passes", f.DueBy(100), ".24332843423")
	same(t, "due by 100 ± 20", f.DueByDay(Day{100, 400}), ".402524030700")
}

func TestSoundReadings(t *testing.T) {
	for _, c := range []struct {
		heights []geometry.Millimetre
		sound   [3]string
		doubt   [3]Doubt
	}{
		{[]geometry.Millimetre{19.8, 18.7, 17.5}, [3]string{".9914219221838", ".9952633430723", ".9944095898451"}, [3]Doubt{}},
		{[]geometry.Millimetre{19.8, 81.7, 17.5}, [3]string{".9914165532879", ".0000000000000", ".9903031334626"}, [3]Doubt{NoDoubt, NotUsed, NoDoubt}},
		{[]geometry.Millimetre{19.8, 18.7, 16.6}, [3]string{".9907189873272", ".954747485351", ".046159685924"}, [3]Doubt{NoDoubt, NoDoubt, MeasureAgain}},
	} {
		f, err := exampleConstants().Forecast(exampleQuestion(c.heights...))
		if err != nil {
			t.Fatal(err)
		}
		for i, got := range f.Sound {
			same(t, "sound", got, c.sound[i])
			if d := ReadingDoubt(got, i == len(f.Sound)-1); d != c.doubt[i] {
				t.Errorf("%v, reading %d: doubt %v, want %v", c.heights, i+1, d, c.doubt[i])
			}
		}
	}
}

// One slip at the end cannot be told from the truth: the interval widens.
func TestLastReadingOffWidensTheInterval(t *testing.T) {
	f, err := exampleConstants().Forecast(exampleQuestion(19.8, 18.7, 16.6))
	if err != nil {
		t.Fatal(err)
	}
	left := passesLeft(t, f)
	for i, want := range []string{"86.5374577", "106.5015520", "126.1246560"} {
		sameTo(t, "passes left", left[i], want, 2e-6)
	}
	if left[2]-left[0] < 2*(115.1452-95.8585) {
		t.Errorf("from %v to %v: hardly wider than with a sound reading", left[0], left[2])
	}
}

func TestBelowChangeHeightIsDueNow(t *testing.T) {
	q := exampleQuestion(18.0, 16.2, 14.9)
	f, err := exampleConstants().Forecast(q)
	if err != nil {
		t.Fatal(err)
	}
	if left := passesLeft(t, f); left != [3]float64{} {
		t.Errorf("passes left %v, want none", left)
	}
	if day := firstDay(f, []Day{{10, 0}}, .9); day != 0 {
		t.Errorf("first day %d, want the first", day)
	}
}

func TestForecastRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Question){
		"no prior":        func(q *Question) { q.Prior = Prior{} },
		"no segment":      func(q *Question) { q.Own = nil },
		"negative passes": func(q *Question) { q.Since = -1 },
		"no change":       func(q *Question) { q.Change = geometry.Millimetre(math.NaN()) },
		"bad partner":     func(q *Question) { q.Partner = []Segment{{}} },
		"passes unknown":  func(q *Question) { q.SinceUnknown = true },
	} {
		q := exampleQuestion(19.8)
		spoil(&q)
		if _, err := Defaults().Forecast(q); err == nil {
			t.Errorf("%s: a forecast was made", name)
		}
	}
	q := exampleQuestion(19.8)
	q.SinceUnknown = true
	if _, err := Defaults().ForecastPair(q, exampleQuestion(19.8)); !errors.Is(err, ErrPassesUnknown) {
		t.Errorf("passes unknown: %v", err)
	}
	f, err := Defaults().Forecast(exampleQuestion(19.8))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.PassesLeft(1); err == nil {
		t.Error("a certain date was given")
	}
}

func TestPairIsDueWhenTheFirstIs(t *testing.T) {
	own, partner := questionOfPair()
	pair, err := exampleConstants().ForecastPair(own, partner)
	if err != nil {
		t.Fatal(err)
	}
	if got, lower := passesLeft(t, pair), passesLeft(t, pair.Right); math.Abs(got[1]-lower[1]) > 1e-5 {
		t.Errorf("pair %v, its lower side %v", got, lower)
	}
	if day := (Day{90, 30}); pair.DueByDay(day) != pair.Right.DueByDay(day) {
		t.Error("the pair's day is not that of its lower side")
	}
}

// Trade scenario: an exact first height, 40 passes to a height, the days to
// come with 15, 10, 10 and 15 passes. Passes done elsewhere stop the forecast
// until the next height, which begins a new segment.
func TestTradeScenario(t *testing.T) {
	c := Defaults()
	pool, err := c.NewPool([][]PairWear{nil})
	if err != nil {
		t.Fatal(err)
	}
	prior, err := pool.Prior(0)
	if err != nil {
		t.Fatal(err)
	}
	newHeight, err := c.NewHeight(11.9, nil)
	if err != nil {
		t.Fatal(err)
	}
	caliper, _ := c.CaliperVariance(nil)
	s := Segment{New: newHeight, CaliperVariance: caliper, Readings: []Reading{{0, 11.9}, {40, 11.06}, {80, 10.18}, {120, 9.34}}}
	q := Question{Prior: prior, Own: []Segment{s}, Change: 8.4}
	f, err := c.Forecast(q)
	if err != nil {
		t.Fatal(err)
	}
	left := passesLeft(t, f)
	if math.Abs(f.Loss-.0214) > .0002 || math.Abs(left[1]-44) > 1 {
		t.Errorf("%.5f mm a pass, %.1f passes left, want about .0214 and 44", f.Loss, left[1])
	}
	days, err := PlannedPasses([]float64{15, 10, 10, 15})
	if err != nil {
		t.Fatal(err)
	}
	if day := firstDay(f, days, .5); day != 3 {
		t.Errorf("due on day %d, want the fourth", day+1)
	}
	q.SinceUnknown = true
	if _, err := c.Forecast(q); !errors.Is(err, ErrPassesUnknown) {
		t.Errorf("passes done elsewhere: %v", err)
	}
	q.SinceUnknown = false
	q.Own = append(q.Own, Segment{CaliperVariance: caliper, Readings: []Reading{{0, 9.0}}})
	again, err := c.Forecast(q)
	if err != nil {
		t.Fatal(err)
	}
	if got := passesLeft(t, again)[1]; math.Abs(got-.6/.0214) > 2 {
		t.Errorf("measured again at 9.0: %.1f passes left, want about 28", got)
	}
}

func TestEstimatesStayVague(t *testing.T) {
	q := exampleQuestion()
	q.Own[0].New = stats.Estimate{Value: 14, Variance: .01}
	f, err := Defaults().Forecast(q)
	if err != nil {
		t.Fatal(err)
	}
	if got := passesLeft(t, f); got != [3]float64{} {
		t.Errorf("new below its change height: %v passes left", got)
	}
}
