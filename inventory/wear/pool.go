package wear

import (
	"errors"
	"fmt"
	"math"

	"steeltally/inventory/wear/stats"
)

// PairWear is the log loss per pass of one earlier pair: of its left and right
// runner, or of one alone where the other is not known.
type PairWear struct{ Sides []stats.Estimate }

// Pool is what a club's earlier pairs say together.
type Pool struct {
	SideSpread  float64 // of the sides within a pair, log scale
	PairSpread  float64 // of one player's pairs
	PairFreedom float64 // pairs more than players, among players with two or more
	constants   Constants
	players     []history
}

// history is one player's pairs, pooled.
type history struct {
	pairs    []pair
	mean     float64 // of log loss, bad pairs held
	variance float64 // of that mean, but for the player's difference from the club
}

// pair is one pair's mean log loss with its variance.
type pair struct{ mean, variance float64 }

// NewPool pools the earlier pairs of a club's players: one list a player, empty
// for a player without history. Goalkeepers belong in a pool of their own.
func (c Constants) NewPool(players [][]PairWear) (Pool, error) {
	if err := checkPairs(players); err != nil {
		return Pool{}, err
	}
	p := Pool{constants: c, SideSpread: c.sideSpread(players)}
	for _, pairs := range players {
		p.players = append(p.players, history{pairs: p.pairsOf(pairs)})
	}
	p.PairSpread, p.PairFreedom = c.pairSpread(p.players)
	for i := range p.players {
		p.players[i].settle(p.PairSpread)
	}
	return p, nil
}

// Players is the number of players that the pool was made of.
func (p Pool) Players() int { return len(p.players) }

// pairsOf averages the sides. A side without its partner may lie off its pair.
func (p Pool) pairsOf(pairs []PairWear) []pair {
	var found []pair
	for _, w := range pairs {
		if len(w.Sides) == 1 {
			found = append(found, pair{w.Sides[0].Value, w.Sides[0].Variance + p.SideSpread*p.SideSpread/2})
			continue
		}
		left, right := w.Sides[0], w.Sides[1]
		found = append(found, pair{(left.Value + right.Value) / 2, (left.Variance + right.Variance) / 4})
	}
	return found
}

const clipPlayer = 2.5 // spreads from the player's median at which a pair is held

// settle finds the player's mean, with pairs that lie far out held.
func (h *history) settle(pairSpread float64) {
	n := float64(len(h.pairs))
	if n == 0 {
		return
	}
	median := stats.Median(h.means())
	weights, sum := 0.0, 0.0
	for _, q := range h.pairs {
		variance := pairSpread*pairSpread + q.variance
		value := q.mean
		if n > 2 {
			value = clip(value, median, clipPlayer*math.Sqrt(variance))
		}
		weights += 1 / variance
		sum += value / variance
	}
	h.mean = sum / weights
	h.variance = (pairSpread*pairSpread + h.meanError()) / n
}

func (h history) means() []float64 {
	values := make([]float64, len(h.pairs))
	for i, q := range h.pairs {
		values[i] = q.mean
	}
	return values
}

// meanError is the mean of the pairs' error variances.
func (h history) meanError() float64 {
	sum := 0.0
	for _, q := range h.pairs {
		sum += q.variance
	}
	return sum / float64(len(h.pairs))
}

func checkPairs(players [][]PairWear) error {
	for i, pairs := range players {
		for j, w := range pairs {
			if len(w.Sides) < 1 || len(w.Sides) > 2 {
				return fmt.Errorf("player %d, pair %d has %d sides: give one or two", i+1, j+1, len(w.Sides))
			}
			for _, side := range w.Sides {
				if !finite(side.Value, side.Variance) || side.Variance <= 0 {
					return fmt.Errorf("player %d, pair %d: log loss %v with variance %v: %w", i+1, j+1, side.Value, side.Variance, errNoEstimate)
				}
			}
		}
	}
	return nil
}

var errNoEstimate = errors.New("not an estimate: leave the runner out")
