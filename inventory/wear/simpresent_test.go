package wear_test

import (
	"math"

	"steeltally/inventory/wear"
	"steeltally/inventory/wear/truth"
)

// present is a pair in use, asked about just after its last reading.
type present struct {
	player int
	seen   wear.Pair
	pair   truth.Pair
	left   [2]float64 // passes truly left
}

// presentPair grinds a new pair to a share of the player's expected life, with
// k heights on the way.
func (s *simClub) presentPair(player, k int, age float64) present {
	expected := float64(s.NewHeight-s.ChangeHeight) / math.Exp(s.players[player].LogWear)
	p := present{player: player, seen: newPair()}
	now := step{pair: s.NewPair(s.r, s.players[player])}
	for i := 1; i <= k; i++ {
		for now.passes < age*expected*float64(i)/float64(k) {
			s.GrindPair(s.r, &now.pair, s.sessionPasses())
			now.passes = float64(now.pair.Left.Passes)
		}
		s.measure(&p.seen, now)
	}
	p.pair, p.left = now.pair, s.futures(now.pair)
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
		s.GrindPair(s.r, &pair, s.sessionPasses())
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
