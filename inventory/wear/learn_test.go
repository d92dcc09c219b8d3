package wear

import (
	"errors"
	"math"
	"testing"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

// segment is one from readings (passes, height).
func segment(caliperVariance float64, readings ...Reading) Segment {
	return Segment{CaliperVariance: caliperVariance, Readings: readings}
}

// Values here: R 4.2.2, the stated formulas written anew in it.

func TestCaliperVarianceFromTriples(t *testing.T) {
	segments := []Segment{
		segment(0, Reading{30, 20.31}, Reading{80, 19.52}, Reading{150, 18.05}, Reading{210, 17.02}),
		segment(0, Reading{40, 20.1}, Reading{100, 19.2}, Reading{100, 19.1}, Reading{160, 17.8}), // no gap, no triple
		segment(0, Reading{0, 21.02}, Reading{55, 19.88}, Reading{120, 18.9}),
		segment(0, Reading{0, 21}, Reading{50, 20}),
	}
	variance, triples := Defaults().CaliperVariance(segments)
	if triples != 3 {
		t.Errorf("%d triples, want 3", triples)
	}
	same(t, "caliper variance", variance, ".009839908861882")
}

func TestCaliperVarianceWithoutTriples(t *testing.T) {
	if v, n := Defaults().CaliperVariance(nil); n != 0 || math.Abs(v-.0036) > 1e-15 {
		t.Errorf("nothing measured: %v from %d triples, want the guess .0036", v, n)
	}
	exact := segment(0, Reading{0, 21}, Reading{50, 20}, Reading{100, 19}, Reading{150, 18})
	// Readings on a line: held at .02² and mixed with the guess, two triples.
	want := (4*.0036 + .74*.0004) / 4.74
	if v, n := Defaults().CaliperVariance([]Segment{exact}); n != 2 || math.Abs(v-want) > 1e-15 {
		t.Errorf("readings on a line: %v from %d, want %v", v, n, want)
	}
}

func TestNewHeightFromEarlierRunners(t *testing.T) {
	earlier := []Segment{
		segment(.0036, Reading{30, 20.31}, Reading{80, 19.52}, Reading{150, 18.05}, Reading{210, 17.02}),
		segment(.0036, Reading{40, 20.6}, Reading{100, 19.2}, Reading{160, 17.8}),
		segment(.0036, Reading{20, 20.62}, Reading{55, 19.88}, Reading{120, 18.9}),
		segment(.0036, Reading{50, 20.4}, Reading{90, 19.5}, Reading{140, 18.9}),
		segment(.0036, Reading{25, 22.9}, Reading{60, 22.4}, Reading{110, 21.9}), // far out: held
		segment(.0036, Reading{25, 9}, Reading{60, 8}),                           // two readings: passed over
		segment(.0036, Reading{25, 9}, Reading{25, 8}, Reading{25, 8}),           // no slope: passed over
	}
	got, err := Defaults().NewHeight(21, earlier)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "new height", got.Value, "21.1308140132379")
	same(t, "its variance", got.Variance, ".2131172311254")
}

func TestNewHeightWithoutHistory(t *testing.T) {
	got, err := Defaults().NewHeight(21, nil)
	if err != nil || got.Value != 21 || math.Abs(got.Variance-(.09+.04)) > 1e-15 {
		t.Errorf("%+v, %v: want 21 with .3² + .2²", got, err)
	}
	if _, err := Defaults().NewHeight(0, nil); err == nil {
		t.Error("a runner of no height passed")
	}
}

func newRunner(readings ...Reading) Segment {
	s := segment(.0036, readings...)
	s.New = stats.Estimate{Value: 21, Variance: .0625}
	return s
}

func TestEarlierRunner(t *testing.T) {
	one := []Segment{newRunner(Reading{70, 19.75}, Reading{140, 18.4}, Reading{230, 16.4})}
	two := []Segment{
		newRunner(Reading{70, 19.75}, Reading{140, 18.4}),
		segment(.0036, Reading{10, 17.3}, Reading{60, 16.5}, Reading{100, 15.6}),
	}
	for _, c := range []struct {
		name            string
		segments        []Segment
		value, variance string
	}{
		{"one segment", one, "-3.8750887757776", ".0017517682274"},
		{"passes unknown between two", two, "-3.9710256212", ".00229089597"},
	} {
		got, err := Defaults().EarlierRunner(c.segments)
		if err != nil {
			t.Fatal(err)
		}
		same(t, c.name, got.Value, c.value)
		same(t, c.name+", variance", got.Variance, c.variance)
	}
}

func TestEarlierRunnerThatGrew(t *testing.T) {
	got, err := Defaults().EarlierRunner([]Segment{newRunner(Reading{60, 21.2})})
	if err != nil || math.Abs(got.Value-math.Log(.019)) > 1 || got.Variance <= 0 {
		t.Errorf("%+v, %v: want a vague estimate about the usual loss", got, err)
	}
}

func TestSegmentsRefused(t *testing.T) {
	nan := math.NaN()
	for name, s := range map[string][]Segment{
		"nothing":                    nil,
		"no reading, not new":        {segment(.0036)},
		"no caliper variance":        {segment(0, Reading{1, 20})},
		"readings out of order":      {segment(.01, Reading{60, 20}, Reading{50, 20.1})},
		"passes before new":          {newRunner(Reading{-5, 20})},
		"a height that is no number": {segment(.01, Reading{60, geometry.Millimetre(nan)})},
	} {
		if _, err := Defaults().EarlierRunner(s); err == nil {
			t.Errorf("%s passed", name)
		}
	}
	if _, err := Defaults().EarlierRunner([]Segment{segment(.0036)}); !errors.Is(err, ErrNoReading) {
		t.Errorf("no reading: %v", err)
	}
}

func TestPoolRefusesWhatIsNoEstimate(t *testing.T) {
	for name, sides := range map[string][]stats.Estimate{
		"no side": {}, "three sides": make([]stats.Estimate, 3), "no variance": {{Value: -4}}, "not a number": {{Value: math.NaN(), Variance: 1}},
	} {
		if _, err := Defaults().NewPool([][]PairWear{{{sides}}}); err == nil {
			t.Errorf("%s passed", name)
		}
	}
	pool, err := Defaults().NewPool(examplePairs())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := pool.Prior(4); err == nil {
		t.Error("a player outside the pool has a prior")
	}
}

// A club without any history: the guesses stand, with five degrees of freedom.
func TestPriorOfANewClub(t *testing.T) {
	pool, err := Defaults().NewPool([][]PairWear{nil})
	if err != nil {
		t.Fatal(err)
	}
	p, err := pool.Prior(0)
	if err != nil {
		t.Fatal(err)
	}
	a, v := .12*.12+.05*.05/2, .25*.25+.25*.25
	want := math.Sqrt(a + v)
	if math.Abs(p.Mean-math.Log(.019)) > 1e-15 || math.Abs(p.Scale-want) > 1e-15 {
		t.Errorf("prior %v ± %v, want log .019 ± %v", p.Mean, p.Scale, want)
	}
	if freedom := (a + v) * (a + v) / (a*a/5 + v*v/5); math.Abs(p.Freedom-freedom) > 1e-12 {
		t.Errorf("freedom %v, want %v", p.Freedom, freedom)
	}
}

// A runner whose partner is not known counts as a pair, less surely.
func TestPoolTakesSingleSides(t *testing.T) {
	both := PairWear{[]stats.Estimate{{Value: -4, Variance: .004}, {Value: -4, Variance: .004}}}
	single := PairWear{[]stats.Estimate{{Value: -4, Variance: .002 - .05*.05/2}}}
	for _, w := range []PairWear{both, single} {
		pool, err := Defaults().NewPool([][]PairWear{{w}})
		if err != nil {
			t.Fatal(err)
		}
		if got := pool.players[0].pairs[0]; got.mean != -4 || math.Abs(got.variance-.002) > 5e-4 {
			t.Errorf("%+v, want −4 with about .002", got)
		}
	}
}
