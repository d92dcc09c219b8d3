package wear

import (
	"errors"
	"fmt"

	"gonum.org/v1/gonum/stat"
	"steeltally/inventory/wear/stats"
)

// SessionPasses is what one session of one kind (practice, game) costs a player.
type SessionPasses struct {
	Mean         float64 // passes; 0 where a session is skated without a grind
	MeanVariance float64 // of that mean
	Variance     float64 // of one session about it
}

const (
	pooledSessions       = 10   // sessions that the club's spread counts for
	playerSessionsSpread = 0.25 // guess: players' means differ by a quarter of the club's
)

// ErrNoSessions says that nothing tells how many passes a session takes.
var ErrNoSessions = errors.New("too few sessions logged to turn passes into days")

// PoolSessions learns the passes a session from the player's own sessions of
// that kind and those of the club's other players, one list a player: spreads
// are pooled, and the player's mean is drawn towards the club's, the more the
// fewer sessions he has. A session skated without a grind is a 0. It is
// ErrNoSessions where nobody has two sessions.
func (c Constants) PoolSessions(own []float64, others [][]float64) (SessionPasses, error) {
	if err := checkSessions(own, others); err != nil {
		return SessionPasses{}, err
	}
	pooled, known := pooledVariance(others)
	n := float64(len(own))
	squares := squaresAbout(own)
	s := SessionPasses{Variance: (pooledSessions*pooled + squares) / (pooledSessions + n - 1)}
	switch {
	case !known && n < 2:
		return s, ErrNoSessions
	case !known:
		s.Variance = squares / (n - 1)
	case n == 0:
		s.Variance = pooled
	}
	if s.Variance == 0 {
		s.Variance = leastSessionVariance
	}
	return c.ownMean(s, own, others, pooled)
}

const leastSessionVariance = 1.0 / 12 // whole passes hide that much

// ownMean fills in the player's mean.
func (c Constants) ownMean(s SessionPasses, own []float64, others [][]float64, pooled float64) (SessionPasses, error) {
	n := float64(len(own))
	club, known, err := c.clubSessions(others, pooled)
	if err != nil {
		return s, err
	}
	mean := club
	switch {
	case n > 0 && known:
		mean = club.and(normal{stat.Mean(own, nil), s.Variance / n})
	case n > 0:
		mean = normal{stat.Mean(own, nil), s.Variance / n}
	}
	s.Mean, s.MeanVariance = mean.mean, mean.variance
	return s, nil
}

// clubSessions is what the other players say of one whose sessions are not seen.
func (c Constants) clubSessions(others [][]float64, pooled float64) (player normal, known bool, err error) {
	if pooled == 0 {
		pooled = leastSessionVariance
	}
	var means []stats.Estimate
	for _, o := range others {
		if len(o) > 0 {
			means = append(means, stats.Estimate{Value: stat.Mean(o, nil), Variance: pooled / float64(len(o))})
		}
	}
	if len(means) == 0 {
		return normal{}, false, nil
	}
	apart, err := stats.DerSimonianLaird(means)
	if err != nil {
		return normal{}, false, fmt.Errorf("passes a session: %w", err)
	}
	spread := c.shrink(playerSessionsSpread*apart.Mean, apart.Tau2, float64(len(means)-1))
	mean, precision := 0.0, 0.0
	for _, m := range means {
		w := 1 / (spread + m.Variance)
		mean, precision = mean+w*m.Value, precision+w
	}
	return normal{mean / precision, spread + 1/precision}, true, nil
}

// pooledVariance is that of sessions within players with two or more.
func pooledVariance(players [][]float64) (variance float64, known bool) {
	squares, freedom := 0.0, 0
	for _, sessions := range players {
		if len(sessions) > 1 {
			squares += squaresAbout(sessions)
			freedom += len(sessions) - 1
		}
	}
	if freedom == 0 {
		return 0, false
	}
	return squares / float64(freedom), true
}

func squaresAbout(values []float64) float64 {
	sum := 0.0
	if len(values) > 1 {
		sum = stat.Variance(values, nil) * float64(len(values)-1)
	}
	return sum
}

func checkSessions(own []float64, others [][]float64) error {
	for i, list := range append([][]float64{own}, others...) {
		for _, passes := range list {
			if !finite(passes) || passes < 0 {
				return fmt.Errorf("%v passes in a session of player %d: a session without a grind is 0", passes, i+1)
			}
		}
	}
	return nil
}
