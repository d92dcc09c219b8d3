package outlook

import (
	"errors"
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
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
	for _, m := range o.Members {
		if m.Gone || !meant(m.Number, players) {
			continue
		}
		all, err := o.dueOf(m)
		if err != nil {
			unworked = append(unworked, m.Player.Unworked(o.At, err))
		}
		for _, due := range all {
			if due.Now {
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
func (o *Outlook) dueOf(m *standing.Member) (all []Due, err error) {
	for _, r := range m.Pairs {
		set := m.Steel(r.Set)
		if set == nil || r.Role == "" {
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
			err = errors.Join(err, fmt.Errorf("set %s: %w", set.Letter, failed))
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

func (o *Outlook) due(m *standing.Member, pair *standing.Skates, set *standing.Steel) (Due, error) {
	d := Due{
		Player: m.Number, Sweater: m.Sweater(o.At), Name: m.Name, Pair: pair.Number, Role: pair.Role, Now: pair == m.SkatesOn(),
		Set: set.Number, Letter: set.Letter, Change: m.SpecsAt(o.At).ChangeHeight, Until: o.calendar.last(),
		Unsafe: pair.Unsafe, Never: pair.Never, Ready: m.Ready,
	}
	if refusal, ok := m.RefusalOf(set.Number, o.At); ok {
		d.Refusal = &refusal
	}
	if err := o.foretell(&d, m, pair, set); err != nil {
		return d, err
	}
	d.Standing = o.standing(d)
	return d, nil
}

// foretell fills in the forecast, or why there is none.
func (o *Outlook) foretell(d *Due, m *standing.Member, pair *standing.Skates, set *standing.Steel) error {
	change := geometry.Millimetre(0)
	if d.Change != nil {
		change = *d.Change
	}
	expected := o.Expect(m.Player, set, change, o.At)
	d.Sides, d.Heights = sidesOf(pair, set, expected), expected.Measured
	d.Earlier = o.RoleOf(m.Player).EarlierRunners(m.Number)
	var why *wear.PairError
	switch {
	case d.Change == nil:
		d.CannotSay, d.ToDo = "no change height is noted", "steeltally specs "+sayPlayer(m, d.Sweater)+" --change-height 15.5mm"
		return nil
	case set.Left == nil || set.Right == nil:
		d.CannotSay, d.ToDo = "a runner of the set is not in this book", "match the set anew: steeltally set add"
		return nil
	case len(pair.Lacks) > 0:
		d.CannotSay, d.ToDo = pair.Lacks[0].String(), pair.Lacks[0].Hint
		return nil
	case errors.As(expected.Err, &why) && why.ToMeasure():
		d.WhyNot = expected.WhyNot()
		d.CannotSay, d.ToDo = "can't say until measured: "+d.WhyNot, "steeltally measure "+d.whose(m)
		return nil
	case expected.Err != nil:
		return expected.Err
	}
	d.forecast = expected.Forecast
	d.Basis = wear.BasisOf(d.Heights, d.Earlier)
	o.tellSides(d, set)
	var err error
	if d.Passes, err = passesLeft(d.forecast); err != nil {
		return err
	}
	return o.foretellDates(d, m)
}

// whose is how the steel is named on a command line: by its player where he skates on it,
// else by its pair.
func (d *Due) whose(m *standing.Member) string {
	if d.Now {
		return sayPlayer(m, d.Sweater)
	}
	return d.Pair.Short()
}

// sayPlayer is how a player is named on a command line.
func sayPlayer(m *standing.Member, sweater int) string {
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
