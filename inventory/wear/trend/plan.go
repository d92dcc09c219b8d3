package trend

import (
	"fmt"
	"math"

	"steeltally/inventory/wear/stats"
)

// Plan is how often a season is looked at for differences, and how rarely
// chance alone may call one.
type Plan struct {
	Level float64 // chance that a season without any difference is said to have one
	Looks int     // set days on which verdicts are reached
}

// UsualPlan looks seven times a season, and is wrong in at most one of twenty.
func UsualPlan() Plan { return Plan{Level: 0.05, Looks: 7} }

func (p Plan) check() error {
	if !(p.Level > 0 && p.Level < 1) || p.Looks < 1 {
		return fmt.Errorf("plan with level %v and %d looks: .05 and 7 are usual", p.Level, p.Looks)
	}
	return nil
}

// LevelAtLook is the level that one look may use up: each the same part.
func (p Plan) LevelAtLook() float64 { return p.Level / float64(p.Looks) }

// Differs judges all comparisons of one kind made on one set day, from their p
// values: Holm's adjustment against the level of one look. Any number of
// comparisons, none of them a difference, are called different at one or more
// of the looks in at most Level of seasons.
func (p Plan) Differs(ps []float64) ([]bool, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	adjusted, err := stats.Holm(ps)
	if err != nil {
		return nil, err
	}
	verdicts := make([]bool, len(ps))
	for i, a := range adjusted {
		verdicts[i] = a <= p.LevelAtLook()
	}
	return verdicts, nil
}

// LookDays are the set days of a season of so many days, numbered from 1; the
// last look is on its last day.
func (p Plan) LookDays(season int) ([]int, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if season < p.Looks {
		return nil, fmt.Errorf("a season of %d days has no room for %d looks", season, p.Looks)
	}
	days := make([]int, p.Looks)
	for i := range days {
		days[i] = int(math.Round(float64(season*(i+1)) / float64(p.Looks)))
	}
	return days, nil
}

// LastLook is the set day whose verdict stands on a day of the season: data that
// came later must not change it. False before the first.
func (p Plan) LastLook(day, season int) (look int, any bool, err error) {
	days, err := p.LookDays(season)
	if err != nil {
		return 0, false, err
	}
	for _, d := range days {
		if d <= day {
			look, any = d, true
		}
	}
	return look, any, nil
}
