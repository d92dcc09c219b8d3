package outlook

import (
	"errors"
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// The chances at which a range is told: a middle guess, and four cases in five between.
const (
	lowChance    = 0.1
	middleChance = 0.5
	highChance   = 0.9
)

// Due tells what is to be said of the sets that are on: of those on first pairs, and
// of those on other pairs; of some players, or of everybody who has not left; and of whom
// it can't be worked out. The first two lists have the most urgent first.
func (o *Outlook) Due(players ...inventory.Number) (first, others []Due, unworked []inventory.Unworked) {
	unworked = o.unworkedOf(players)
	for _, m := range o.members {
		if m.Gone || !meant(m.Number, players) {
			continue
		}
		all, err := o.dueOf(m)
		if err != nil {
			unworked = append(unworked, m.Unworked(o.at, err))
		}
		for _, due := range all {
			if due.Role == firstRole {
				first = append(first, due)
			} else {
				others = append(others, due)
			}
		}
	}
	byUrgency(first)
	byUrgency(others)
	return first, others, unworked
}

// dueOf is what is to be said of one player's sets, as far as it can be worked out.
func (o *Outlook) dueOf(m *Member) (all []Due, err error) {
	for _, r := range m.pairs {
		set := m.sets[r.set]
		if set == nil || r.role == "" {
			continue
		}
		failed := inventory.Guard(func() error {
			due, err := o.due(m, r, set)
			if err == nil {
				all = append(all, due)
			}
			return err
		})
		if failed != nil {
			err = errors.Join(err, fmt.Errorf("set %s: %w", set.letter, failed))
		}
	}
	return all, err
}

func meant(n inventory.Number, players []inventory.Number) bool {
	for _, p := range players {
		if p == n {
			return true
		}
	}
	return len(players) == 0
}

func (o *Outlook) due(m *Member, pair *rig, set *steel) (Due, error) {
	d := Due{
		Player: m.Number, Sweater: m.Sweater(o.at), Name: m.Name, Pair: pair.Number, Role: pair.role,
		Set: set.number, Letter: set.letter, Change: m.SpecsAt(o.at).ChangeHeight, Until: o.calendar.last(),
		Unsafe: pair.unsafe, Ready: m.ready,
	}
	if refusal, ok := m.RefusalOf(set.number, o.at); ok {
		d.Refusal = &refusal
	}
	if err := o.foretell(&d, m, set); err != nil {
		return d, err
	}
	d.Standing = o.standing(d)
	return d, nil
}

// foretell fills in the forecast, or why there is none.
func (o *Outlook) foretell(d *Due, m *Member, set *steel) error {
	learnt := o.roleOf(m)
	use := learnt.inUse[set.number]
	d.Sides, d.Heights = o.sides(use, set), ownHeights(use)
	d.Earlier = earlierRunners(learnt.record.Players[learnt.players[m.Number]])
	switch {
	case d.Change == nil:
		d.CannotSay, d.ToDo = "no change height is noted", "steeltally specs "+sayPlayer(m, d.Sweater)+" --change-height 15.5mm"
		return nil
	case set.left == nil || set.right == nil:
		d.CannotSay, d.ToDo = "a runner of the set is not in this book", "match the set anew: steeltally set add"
		return nil
	}
	ask := learnt.Forecast
	if !use.together {
		ask = learnt.ForecastApart
	}
	forecast, err := ask(learnt.players[m.Number], use.left, use.right, *d.Change)
	var why *wear.PairError
	if errors.As(err, &why) && why.ToMeasure() {
		d.tellWhyNot(why)
		d.ToDo = "steeltally measure " + sayPlayer(m, d.Sweater)
		return nil
	}
	if err != nil {
		return err
	}
	d.forecast = forecast
	d.Basis = wear.BasisOf(d.Heights, d.Earlier)
	d.tellSides(use)
	if d.Passes, err = passesLeft(forecast); err != nil {
		return err
	}
	return o.foretellDates(d, m)
}

// sayPlayer is how a player is named on a command line.
func sayPlayer(m *Member, sweater int) string {
	if sweater != 0 {
		return fmt.Sprint(sweater)
	}
	return m.Number.Short()
}

func passesLeft(f wear.PairForecast) (*Range[float64], error) {
	var r Range[float64]
	for _, bound := range []struct {
		to     *float64
		chance float64
	}{{&r.Low, lowChance}, {&r.Middle, middleChance}, {&r.High, highChance}} {
		passes, err := f.PassesLeft(bound.chance)
		if err != nil {
			return nil, err
		}
		*bound.to = passes
	}
	return &r, nil
}

// earlierRunners counts the earlier runners whose heights tell something.
func earlierRunners(pairs []wear.Pair) int {
	count := 0
	for _, pair := range pairs {
		for _, runner := range []wear.Runner{pair.Left, pair.Right} {
			if tells(runner) {
				count++
			}
		}
	}
	return count
}

func tells(r wear.Runner) bool {
	for _, s := range r.Stretches {
		if len(s.Readings) > 1 || s.New && len(s.Readings) > 0 {
			return true
		}
	}
	return false
}

// ownHeights counts the heights after passes of the side that has more of them.
func ownHeights(u use) int {
	most := 0
	for _, series := range u.series.Each {
		count := 0
		for _, stretch := range series.Stretches {
			for _, worn := range stretch.Readings {
				if worn.Passes > 0 {
					count++
				}
			}
		}
		most = max(most, count)
	}
	return most
}
