package wear_test

import (
	"math"
	"math/rand/v2"

	"steeltally/inventory/wear"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/truth"
)

// simClub is an invented club with its record, as a program would have it.
type simClub struct {
	truth.Club
	constants wear.Constants
	r         *rand.Rand
	players   []truth.Player
	earlier   [][][2]wear.Segment // by player and pair: left and right, from new
}

const (
	nominalNew      = 21.0
	earlierReadings = 3
	removedEarly    = 0.1
)

// newSimClub draws a club whose players have so many earlier pairs each.
func newSimClub(r *rand.Rand, earlierPairs []int) *simClub {
	s := &simClub{Club: truth.Stated().NewClub(r), constants: wear.Defaults(), r: r}
	for _, pairs := range earlierPairs {
		player := s.NewPlayer(r)
		s.players = append(s.players, player)
		history := make([][2]wear.Segment, pairs)
		for i := range history {
			history[i] = s.wearOut(player)
		}
		s.earlier = append(s.earlier, history)
	}
	return s
}

// step is a pair after one session.
type step struct {
	passes float64
	pair   truth.Pair
}

// path grinds a new pair until its first runner is at its change height.
func (s *simClub) path(pair truth.Pair) []step {
	var steps []step
	for pair.Left.Height > s.ChangeHeight && pair.Right.Height > s.ChangeHeight {
		s.GrindPair(s.r, &pair, s.SessionPasses(s.r))
		steps = append(steps, step{float64(pair.Left.Passes), pair})
	}
	return steps
}

// wearOut lets a pair live its life, with a height in each third of it.
func (s *simClub) wearOut(player truth.Player) [2]wear.Segment {
	steps := s.path(s.NewPair(s.r, player))
	life := float64(len(steps))
	if s.r.Float64() < removedEarly {
		life *= .2 + .7*s.r.Float64()
	}
	var pair [2]wear.Segment
	for i := range earlierReadings {
		at := life * (float64(i) + s.r.Float64()) / earlierReadings
		s.measure(&pair, steps[int(at)], 0)
	}
	return pair
}

// measure adds a reading of both sides; a share of the readings are slips.
func (s *simClub) measure(pair *[2]wear.Segment, at step, slips float64) {
	for side, steel := range []truth.Runner{at.pair.Left, at.pair.Right} {
		height := s.Caliper.MeasureCarelessly(s.r, steel.Height, slips)
		pair[side].Readings = append(pair[side].Readings, wear.Reading{Passes: at.passes, Height: height})
	}
}

// present is a pair in use, asked about just after its last reading.
type present struct {
	player   int
	segments [2]wear.Segment
	left     [2]float64 // passes truly left
}

// presentPair grinds a new pair to a share of the player's expected life, with
// k heights on the way.
func (s *simClub) presentPair(player, k int, age, slips float64) present {
	expected := float64(s.NewHeight-s.ChangeHeight) / math.Exp(s.players[player].LogWear)
	p := present{player: player}
	now := step{pair: s.NewPair(s.r, s.players[player])}
	for i := 1; i <= k; i++ {
		for now.passes < age*expected*float64(i)/float64(k) {
			s.GrindPair(s.r, &now.pair, s.SessionPasses(s.r))
			now.passes = float64(now.pair.Left.Passes)
		}
		s.measure(&p.segments, now, slips)
	}
	p.left = s.futures(now.pair)
	return p
}

// futures grinds a pair on until both sides are at their change height.
func (s *simClub) futures(pair truth.Pair) (left [2]float64) {
	start, done := pair.Left.Passes, [2]bool{}
	for i, steel := range []truth.Runner{pair.Left, pair.Right} {
		done[i] = steel.Height <= s.ChangeHeight
	}
	for !done[0] || !done[1] {
		before := pair
		s.GrindPair(s.r, &pair, s.SessionPasses(s.r))
		was, is := [2]truth.Runner{before.Left, before.Right}, [2]truth.Runner{pair.Left, pair.Right}
		for i := range left {
			if !done[i] && is[i].Height <= s.ChangeHeight {
				part := float64((was[i].Height - s.ChangeHeight) / (was[i].Height - is[i].Height))
				left[i] = float64(was[i].Passes-start) + part*float64(is[i].Passes-was[i].Passes)
				done[i] = true
			}
		}
	}
	return left
}

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
