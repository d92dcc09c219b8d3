package wear_test

import (
	"math"

	"steeltally/inventory/wear"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/truth"
)

// learn takes in the club's earlier pairs, and its present ones for the caliper.
func (s *simClub) learn(presents []present) (wear.Knowledge, error) {
	record := wear.Record{Kinds: []wear.Kind{{Nominal: nominalNew}}, Players: s.earlier}
	for _, p := range presents {
		record.Present = append(record.Present, p.seen)
	}
	return s.constants.Learn(record)
}

// forecast asks about both sides of a present pair.
func forecast(k wear.Knowledge, p present) (wear.PairForecast, error) {
	return k.Forecast(p.player, wear.InUse{Runner: p.seen.Left}, wear.InUse{Runner: p.seen.Right}, p.seen.Change)
}

// oracle knows the club's true spreads, its caliper and the player's true mean.
func (s *simClub) oracle(p present) (wear.PairForecast, error) {
	c := s.constants
	c.Unevenness = s.GrindSpread * s.GrindSpread * float64(s.UsualPasses)
	prior := wear.Prior{
		Mean: s.players[p.player].LogWear, Scale: math.Hypot(s.PairSpread, s.SideSpread),
		Freedom: 1e6, SideSpread: s.SideSpread,
	}
	ask := func(r wear.Runner) wear.Question {
		segment := wear.Segment{
			New:             stats.Estimate{Value: float64(s.NewHeight), Variance: float64(s.NewSpread * s.NewSpread)},
			CaliperVariance: caliperVariance(s.Caliper),
			Readings:        r.Stretches[0].Readings,
		}
		return wear.Question{Prior: prior, Own: []wear.Segment{segment}, Change: s.ChangeHeight}
	}
	return c.ForecastPair(ask(p.seen.Left), ask(p.seen.Right))
}

// caliperVariance is a reading's true variance; rounding adds its own.
func caliperVariance(c truth.Caliper) float64 { return c.Spread*c.Spread + c.Step*c.Step/12 }
