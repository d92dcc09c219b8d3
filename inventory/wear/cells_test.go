package wear_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"

	"steeltally/inventory/wear"
)

// history is how much earlier steel a club has.
type history struct {
	name  string
	pairs int  // earlier pairs of each player that is asked about
	alone bool // nobody else in the club has any either
}

// cell is one kind of case.
type cell struct {
	history string
	heights int
	age     float64 // share of the player's expected life
}

func (c cell) String() string {
	return fmt.Sprintf("%-24s %d heights at %.2f", c.history, c.heights, c.age)
}

const askedPlayers = 20

// earlierPairs is the number of earlier pairs by player: those asked about, and
// where these have none, a dozen others with some.
func (h history) earlierPairs(r *rand.Rand) []int {
	pairs := make([]int, askedPlayers)
	for i := range pairs {
		pairs[i] = h.pairs
	}
	if h.pairs == 0 && !h.alone {
		for range 12 {
			pairs = append(pairs, 1+r.IntN(10))
		}
	}
	return pairs
}

// simulation is a run over many clubs.
type simulation struct {
	histories []history
	heights   []int
	ages      []float64
	clubs     int
	bad       float64 // share of bad readings
	seed      uint64
}

// run asks about a runner and a set of each player in each cell.
func (sim simulation) run(t *testing.T) map[cell]*tally {
	t.Helper()
	var mu sync.Mutex
	total := map[cell]*tally{}
	var wait sync.WaitGroup
	places := make(chan struct{}, runtime.GOMAXPROCS(0))
	for _, h := range sim.histories {
		for i := range sim.clubs {
			wait.Add(1)
			places <- struct{}{}
			go func() {
				defer func() { <-places; wait.Done() }()
				part, err := sim.club(h, uint64(i))
				mu.Lock()
				defer mu.Unlock()
				if err != nil {
					t.Errorf("%s, club %d: %v", h.name, i, err)
				}
				for c, u := range part {
					if total[c] == nil {
						total[c] = newTally()
					}
					total[c].merge(u)
				}
			}()
		}
	}
	wait.Wait()
	return total
}

// club asks one club about every cell; its draws depend on its number alone.
func (sim simulation) club(h history, number uint64) (map[cell]*tally, error) {
	r := rand.New(rand.NewPCG(sim.seed+number, uint64(h.pairs)))
	s := newSimClub(r, h.earlierPairs(r), sim.bad)
	part := map[cell]*tally{}
	for _, age := range sim.ages {
		for _, k := range sim.heights {
			var presents []present
			for player := range askedPlayers {
				presents = append(presents, s.presentPair(player, k, age))
			}
			u, err := s.askAll(presents)
			if err != nil {
				return nil, err
			}
			part[cell{h.name, k, age}] = u
		}
	}
	return part, nil
}

func (s *simClub) askAll(presents []present) (*tally, error) {
	known, err := s.learn(presents)
	if err != nil {
		return nil, err
	}
	u := newTally()
	for _, p := range presents {
		f, err := forecast(known, p)
		if err != nil {
			return nil, err
		}
		best, err := s.oracle(p)
		if err != nil {
			return nil, err
		}
		a, err := answers(f)
		if err != nil {
			return nil, err
		}
		bestMiddle, err := best.Left.PassesLeft(.5)
		if err != nil {
			return nil, err
		}
		readings, change := p.seen.Left.Stretches[0].Readings, float64(s.ChangeHeight)
		u.add(a, map[string]float64{
			oracle: bestMiddle, byNaive: naive(readings, change), bySlope: leastSquares(readings, change),
		}, p.left)
	}
	return u, nil
}

// answers reads the quantiles off a forecast.
func answers(f wear.PairForecast) (a answer, err error) {
	for _, q := range []struct {
		to *float64
		of interface {
			PassesLeft(float64) (float64, error)
		}
		chance float64
	}{
		{&a.low, f.Left, .1}, {&a.middle, f.Left, .5}, {&a.high, f.Left, .9}, {&a.pairLow, f, .1}, {&a.pairHigh, f, .9},
	} {
		if *q.to, err = q.of.PassesLeft(q.chance); err != nil {
			return a, err
		}
	}
	return a, nil
}
