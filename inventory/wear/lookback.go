package wear

import (
	"cmp"
	"slices"
)

// LookBack asks, for the runners that went out last, what the forecast at half
// of their life would have been, from nothing but the pairs that were out before
// theirs went in; and counts over the last so many that can be decided how often
// the 80 % interval held. The caliper and the new heights are taken as known
// today.
func (k Knowledge) LookBack(last int) (SelfCheck, error) {
	var s SelfCheck
	for _, p := range k.latestFirst() {
		made, err := k.lookBackAt(p)
		if err != nil {
			return SelfCheck{}, err
		}
		for _, f := range made {
			if s.Checked < last {
				s.count(f)
			}
		}
		if s.Checked >= last {
			break
		}
	}
	return s, nil
}

// earlierPair is a pair with its player.
type earlierPair struct {
	Pair
	player int
}

func (k Knowledge) latestFirst() []earlierPair {
	var all []earlierPair
	for player, pairs := range k.record.Players {
		for _, p := range pairs {
			all = append(all, earlierPair{p, player})
		}
	}
	slices.SortStableFunc(all, func(a, b earlierPair) int { return cmp.Compare(b.Out, a.Out) })
	return all
}

// lookBackAt makes the forecasts of a pair's two runners at their half-lives.
func (k Knowledge) lookBackAt(p earlierPair) ([]PastForecast, error) {
	pool, err := k.poolBefore(p.In)
	if err != nil {
		return nil, err
	}
	prior, err := pool.Prior(p.player)
	if err != nil {
		return nil, err
	}
	var made []PastForecast
	sides := p.sides()
	for i, r := range sides {
		if len(r.Stretches) != 1 || !r.Stretches[0].New {
			continue
		}
		segments := k.segments(r)
		if len(segments) == 0 {
			continue
		}
		whole := segments[0]
		reading, ok := HalfLife(whole, p.Change)
		if !ok {
			continue
		}
		passes := whole.Readings[reading].Passes
		own, partner := k.segments(r.upTo(passes)), k.segments(sides[1-i].upTo(passes))
		forecast, err := k.constants.Forecast(Question{Prior: prior, Own: own, Partner: partner, Change: p.Change})
		if err != nil {
			return nil, err
		}
		came := PassesUntil(whole, reading, p.Change)
		// What came is known no better than the caliper measures it.
		made = append(made, PastForecast{forecast.dueBy(came.Passes, came.Variance), came.Reached})
	}
	return made, nil
}

// poolBefore is the pool as it was on a day.
func (k Knowledge) poolBefore(day float64) (Pool, error) {
	players := make([][]PairWear, len(k.earlier))
	for i, pairs := range k.earlier {
		for j, w := range pairs {
			if k.record.Players[i][j].Out <= day {
				players[i] = append(players[i], w)
			}
		}
	}
	return k.constants.NewPool(telling(players))
}

// upTo is a runner as it was known after so many passes; nothing of it where its
// passes were not all counted since new.
func (r Runner) upTo(passes float64) Runner {
	if len(r.Stretches) == 0 || !r.Stretches[0].New {
		return Runner{Kind: r.Kind}
	}
	s := Stretch{New: true}
	for _, reading := range r.Stretches[0].Readings {
		if reading.Passes <= passes {
			s.Readings = append(s.Readings, reading)
		}
	}
	return Runner{Kind: r.Kind, Stretches: []Stretch{s}}
}
