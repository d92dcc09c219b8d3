package wear_test

import (
	"math"

	"steeltally/inventory/wear"
	"steeltally/inventory/wear/stats"
)

// record is what the program learns from the club's book.
type record struct {
	pool    wear.Pool
	caliper float64
	new     stats.Estimate
}

// learn pools the club's earlier pairs, and its present ones for the caliper.
func (s *simClub) learn(presents []present) (record, error) {
	var all, earlier []wear.Segment
	for _, pairs := range s.earlier {
		for _, pair := range pairs {
			earlier = append(earlier, pair[:]...)
		}
	}
	all = append(all, earlier...)
	for _, p := range presents {
		all = append(all, p.segments[:]...)
	}
	var rec record
	var err error
	rec.caliper, _ = s.constants.CaliperVariance(all)
	for i := range earlier {
		earlier[i].CaliperVariance = rec.caliper
	}
	if rec.new, err = s.constants.NewHeight(nominalNew, earlier); err != nil {
		return rec, err
	}
	rec.pool, err = s.poolEarlier(rec)
	return rec, err
}

func (s *simClub) poolEarlier(rec record) (wear.Pool, error) {
	players := make([][]wear.PairWear, len(s.players))
	for i, pairs := range s.earlier {
		for _, pair := range pairs {
			var w wear.PairWear
			for _, segment := range pair {
				segment.New, segment.CaliperVariance = rec.new, rec.caliper
				side, err := s.constants.EarlierRunner([]wear.Segment{segment})
				if err != nil {
					return wear.Pool{}, err
				}
				w.Sides = append(w.Sides, side)
			}
			players[i] = append(players[i], w)
		}
	}
	return s.constants.NewPool(players)
}

// forecast asks about both sides of a present pair.
func (s *simClub) forecast(rec record, p present) (wear.PairForecast, error) {
	prior, err := rec.pool.Prior(p.player)
	if err != nil {
		return wear.PairForecast{}, err
	}
	return s.ask(s.constants, prior, rec.new, rec.caliper, p)
}

// oracle knows the club's true spreads and the player's true mean.
func (s *simClub) oracle(p present) (wear.PairForecast, error) {
	c := s.constants
	c.Unevenness = s.GrindSpread * s.GrindSpread * float64(s.UsualPasses)
	prior := wear.Prior{
		Mean: s.players[p.player].LogWear, Scale: math.Hypot(s.PairSpread, s.SideSpread),
		Freedom: 1e6, SideSpread: s.SideSpread,
	}
	caliper := s.Caliper.Spread*s.Caliper.Spread + s.Caliper.Step*s.Caliper.Step/12
	newHeight := stats.Estimate{Value: float64(s.NewHeight), Variance: float64(s.NewSpread * s.NewSpread)}
	return s.ask(c, prior, newHeight, caliper, p)
}

func (s *simClub) ask(c wear.Constants, prior wear.Prior, newHeight stats.Estimate, caliper float64, p present) (wear.PairForecast, error) {
	var sides [2]wear.Question
	for i, segment := range p.segments {
		segment.New, segment.CaliperVariance = newHeight, caliper
		sides[i] = wear.Question{Prior: prior, Own: []wear.Segment{segment}, Change: s.ChangeHeight}
	}
	return c.ForecastPair(sides[0], sides[1])
}
