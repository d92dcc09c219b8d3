package wear

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
	"steeltally/inventory/wear/stats"
)

// Prior is what is known of a new runner's log loss per pass before its own
// heights: Student's t about Mean.
type Prior struct {
	Mean, Scale, Freedom float64
	SideSpread           float64 // of the sides of one pair, for the partner's heights
	PlayerSpread         float64 // of the club's players
	Pairs                int     // the player's own earlier pairs
	OtherPlayers         int     // others of the club with a history
}

// Stranger is a player who is not in the pool.
const Stranger = -1

// Prior is that of one player of the pool, numbered from 0 in the order given, or of a
// Stranger; the club is the other players.
func (p Pool) Prior(player int) (Prior, error) {
	if player < Stranger || player >= len(p.players) {
		return Prior{}, fmt.Errorf("player %d of %d: not in the pool", player+1, len(p.players))
	}
	club, spread, others := p.club(player)
	var own history
	if player != Stranger {
		own = p.players[player]
	}
	k := club
	if len(own.pairs) > 0 {
		k = club.and(normal{own.mean, own.variance})
	}
	w := p.constants.Weight
	runner := p.PairSpread*p.PairSpread + p.SideSpread*p.SideSpread/2
	total := runner + k.variance
	freedom := total * total / (runner*runner/(w+p.PairFreedom) + k.variance*k.variance/(w+math.Max(0, float64(others-1))))
	return Prior{
		Mean: k.mean, Scale: math.Sqrt(total), Freedom: freedom,
		SideSpread: p.SideSpread, PlayerSpread: spread,
		Pairs: len(own.pairs), OtherPlayers: others,
	}, nil
}

// club is what the other players say of a player not seen yet: the mean, with
// the variance of one player about it.
func (p Pool) club(except int) (player normal, spread float64, others int) {
	var means []stats.Estimate
	for i, h := range p.players {
		if i != except && len(h.pairs) > 0 {
			means = append(means, stats.Estimate{Value: h.mean, Variance: h.variance})
		}
	}
	c := p.constants
	if len(means) == 0 {
		usual := c.usualLoss()
		usual.variance += c.PlayerSpread * c.PlayerSpread
		return usual, c.PlayerSpread, 0
	}
	others = len(means)
	apart, _ := stats.DerSimonianLaird(means) // checked when the pool was made
	variance := c.shrink(c.PlayerSpread, apart.Tau2, float64(others-1))
	mean, precision := 0.0, 0.0
	for _, m := range means {
		w := 1 / (variance + m.Variance)
		precision += w
		mean += w * m.Value
	}
	known := normal{mean / precision, 1 / precision}.and(c.usualLoss())
	return normal{known.mean, variance + known.variance}, math.Sqrt(variance), others
}

// Loss is the middle and the bounds of the loss per pass (mm) that hold a new
// runner's with the given confidence, 0 to 1.
func (p Prior) Loss(level float64) (middle float64, span stats.Interval) {
	half := p.Scale * stats.StudentQuantile((1+level)/2, p.Freedom)
	return math.Exp(p.Mean), stats.Interval{Low: math.Exp(p.Mean - half), High: math.Exp(p.Mean + half)}
}

// logDensity is the log density of the log loss, but for a constant.
func (p Prior) logDensity(logLoss, scale float64) float64 {
	return distuv.StudentsT{Mu: p.Mean, Sigma: scale, Nu: p.Freedom}.LogProb(logLoss)
}

func (p Prior) check() error {
	if !finite(p.Mean) || !(p.Scale > 0) || math.IsInf(p.Scale, 0) || !(p.Freedom > 0) || !(p.SideSpread >= 0) {
		return fmt.Errorf("prior %v ± %v with %v degrees of freedom: take it from a pool", p.Mean, p.Scale, p.Freedom)
	}
	return nil
}
