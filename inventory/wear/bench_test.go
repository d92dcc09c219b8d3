package wear

import "testing"

// A whole forecast of one runner: five heights on each side, the partner's taken
// in, and the three quantiles that are printed. It is to stay under 1 ms.
func BenchmarkForecast(b *testing.B) {
	q := exampleQuestion(19.8, 18.7, 17.5, 16.9, 16.4)
	q.Prior.SideSpread = .05
	q.Partner = exampleQuestion(19.7, 18.6, 17.5, 16.7, 16.3).Own
	c := Defaults()
	for b.Loop() {
		f, err := c.Forecast(q)
		if err != nil {
			b.Fatal(err)
		}
		for _, chance := range []float64{.1, .5, .9} {
			if _, err := f.PassesLeft(chance); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// An earlier runner of three heights, as a player has tens of.
func BenchmarkEarlierRunner(b *testing.B) {
	segments := exampleQuestion(19.8, 18.7, 17.5).Own
	c := Defaults()
	for b.Loop() {
		if _, err := c.EarlierRunner(segments); err != nil {
			b.Fatal(err)
		}
	}
}

// All that a list of what is due needs from a club of 28 with 20 earlier pairs
// each: learning from the record, 28 forecasts of both sides, the self-check.
func BenchmarkDueOfAClub(b *testing.B) {
	record := exampleRecord()
	worn := record.Players[0][0]
	record.Players = make([][]Pair, 28)
	for i := range record.Players {
		for j := range 20 {
			worn.In, worn.Out = float64(14*j), float64(14*j+14)
			record.Players[i] = append(record.Players[i], worn)
		}
	}
	c := Defaults()
	for b.Loop() {
		k, err := c.Learn(record)
		if err != nil {
			b.Fatal(err)
		}
		for i := range record.Players {
			f, err := k.Forecast(i, InUse{Runner: worn.Left.upTo(130)}, InUse{Runner: worn.Right.upTo(130)}, 15.5)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := f.PassesLeft(.5); err != nil {
				b.Fatal(err)
			}
		}
		if _, err := k.LookBack(60); err != nil {
			b.Fatal(err)
		}
	}
}

// The pool and a prior for each of 28 players with 20 earlier pairs.
func BenchmarkPoolOfAClub(b *testing.B) {
	example := examplePairs()[0]
	players := make([][]PairWear, 28)
	for i := range players {
		for range 5 {
			players[i] = append(players[i], example...)
		}
	}
	c := Defaults()
	for b.Loop() {
		pool, err := c.NewPool(players)
		if err != nil {
			b.Fatal(err)
		}
		for i := range players {
			if _, err := pool.Prior(i); err != nil {
				b.Fatal(err)
			}
		}
	}
}
