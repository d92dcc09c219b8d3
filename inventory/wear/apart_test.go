package wear

import "testing"

// A pair of which neither runner is there has no kind; with no other steel there are no
// kinds at all.
func TestLearnFromPairsThatAreNotThere(t *testing.T) {
	for name, record := range map[string]Record{
		"earlier":         {Players: [][]Pair{{{In: 1, Out: 2}}}},
		"present":         {Players: [][]Pair{nil}, Present: []Pair{{}}},
		"no height known": {Kinds: []Kind{{}}, Players: [][]Pair{{{Left: Runner{Stretches: []Stretch{{New: true}}}, Right: Runner{Stretches: []Stretch{{New: true}}}}}}},
		"partner's not known": {Kinds: []Kind{{Nominal: 12}, {}}, Players: [][]Pair{{{
			Left:  Runner{Stretches: []Stretch{{New: true, Readings: []Reading{{40, 11}, {80, 10}, {120, 9}}}}},
			Right: Runner{Kind: 1, Stretches: []Stretch{{New: true}}}, Change: 9.2,
		}}}},
		"one side, known": {Kinds: []Kind{{Nominal: 12}}, Players: [][]Pair{{{Left: Runner{Stretches: []Stretch{{New: true, Readings: []Reading{{40, 11}}}}}}}}},
	} {
		k, err := Defaults().Learn(record)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if _, err := k.Pool.Prior(0); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := k.LookBack(60); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Runners that were ground in other pairs tell nothing of each other: the forecast is that
// of each alone.
func TestRunnersApartTellNothingOfEachOther(t *testing.T) {
	k, err := Defaults().Learn(exampleRecord())
	if err != nil {
		t.Fatal(err)
	}
	worn := k.record.Players[0][0]
	left, right := InUse{Runner: worn.Left.upTo(60)}, InUse{Runner: worn.Right.upTo(250)}
	apart, err := k.ForecastApart(0, left, right, 15.5)
	if err != nil {
		t.Fatal(err)
	}
	together, err := k.Forecast(0, left, right, 15.5)
	if err != nil {
		t.Fatal(err)
	}
	alone, err := k.Question(0, left, Runner{}, 15.5)
	if err != nil {
		t.Fatal(err)
	}
	want, err := Defaults().Forecast(alone)
	if err != nil {
		t.Fatal(err)
	}
	if got := passesLeft(t, apart.Left); got != passesLeft(t, want) {
		t.Errorf("apart %v, alone %v", got, passesLeft(t, want))
	}
	wide, narrow := passesLeft(t, apart.Left), passesLeft(t, together.Left)
	if wide[2]-wide[0] <= narrow[2]-narrow[0] {
		t.Errorf("four heights of a partner tell nothing: %v with it, %v without", narrow, wide)
	}
}
