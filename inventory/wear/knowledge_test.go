package wear

import (
	"math"
	"testing"
)

// exampleRecord has three kinds (two references), a player with a whole pair and
// one that tells nothing, and a player without history.
func exampleRecord() Record {
	worn := func(kind int, heights ...Reading) Runner {
		return Runner{Kind: kind, Stretches: []Stretch{{New: true, Readings: heights}}}
	}
	return Record{
		Kinds: []Kind{{Nominal: 21}, {Nominal: 20, Reference: 1}, {Reference: 1}},
		Players: [][]Pair{{
			{
				Left:   worn(0, Reading{60, 19.8}, Reading{130, 18.5}, Reading{250, 16.1}, Reading{300, 15.2}),
				Right:  worn(0, Reading{60, 19.9}, Reading{130, 18.6}, Reading{250, 16.3}, Reading{300, 15.4}),
				Change: 15.5, In: 0, Out: 14,
			},
			{Left: worn(0), Right: Runner{Stretches: []Stretch{{Readings: []Reading{{10, 17}}}}}, Change: 15.5, In: 14, Out: 28},
		}, nil},
		Present: []Pair{{Left: worn(1, Reading{20, 19.5}, Reading{60, 18.9}, Reading{100, 18.0})}},
	}
}

// Learning in one go is the same as step by step.
func TestLearnGoesThroughTheSteps(t *testing.T) {
	c, record := Defaults(), exampleRecord()
	k, err := c.Learn(record)
	if err != nil {
		t.Fatal(err)
	}
	var segments []Segment
	for _, r := range record.Players[0][0].sides() {
		segments = append(segments, Segment{Readings: r.Stretches[0].Readings})
	}
	caliper, triples := c.CaliperVariance(segments)
	if k.CaliperVariances[0] != caliper || k.Triples[0] != triples || triples != 4 || k.Triples[1] != 1 {
		t.Errorf("caliper %v from %v, want %v from 4 and 1", k.CaliperVariances, k.Triples, caliper)
	}
	for i := range segments {
		segments[i].CaliperVariance = caliper
	}
	height, err := c.NewHeight(21, segments)
	if err != nil || k.NewHeights[0] != height || k.NewHeights[1].Value != 20 || k.NewHeights[2].Variance != 0 {
		t.Errorf("new heights %v, %v, want %v, 20 and none", k.NewHeights, err, height)
	}
	prior, err := k.Pool.Prior(0)
	if err != nil || prior.Pairs != 1 || prior.OtherPlayers != 0 {
		t.Errorf("%+v, %v: want the one pair that tells something", prior, err)
	}
}

func TestLearnRefusesUnknownKinds(t *testing.T) {
	record := exampleRecord()
	record.Present[0].Left.Kind = 3
	if _, err := Defaults().Learn(record); err == nil {
		t.Error("a runner of an unlisted kind passed")
	}
	k, err := Defaults().Learn(exampleRecord())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := k.Question(0, InUse{Runner: record.Present[0].Left}, Runner{}, 15.5); err == nil {
		t.Error("a runner in use of an unlisted kind passed")
	}
}

// A runner of a kind whose new height is not known begins at its first reading.
func TestQuestionWithoutNominalHeight(t *testing.T) {
	k, err := Defaults().Learn(exampleRecord())
	if err != nil {
		t.Fatal(err)
	}
	r := Runner{Kind: 2, Stretches: []Stretch{{New: true, Readings: []Reading{{0, 11.9}, {40, 11.06}, {80, 10.18}, {120, 9.34}}}}}
	q, err := k.Question(1, InUse{Runner: r}, Runner{}, 8.4)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Defaults().Forecast(q)
	if err != nil || len(f.Sound) != 3 || math.Abs(f.Loss-.0213) > .0005 {
		t.Errorf("loss %v from %d readings after the first, %v", f.Loss, len(f.Sound), err)
	}
}

func TestLookBackUsesTheRecord(t *testing.T) {
	k, err := Defaults().Learn(exampleRecord())
	if err != nil {
		t.Fatal(err)
	}
	got, err := k.LookBack(60)
	if err != nil || got.Checked != 2 {
		t.Errorf("%+v, %v: want both runners of the one whole pair", got, err)
	}
}
