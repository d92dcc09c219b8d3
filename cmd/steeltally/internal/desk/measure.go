package desk

import (
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Caliper is what was measured of one player's steel, a set or a runner.
type Caliper struct {
	Who       string
	Pair      string
	Reference inventory.Reference // empty: as it is
	AsRead    bool
	Doubting  bool // refuse what is far too low, for a person to look again
	Sides     inventory.Both[inventory.Height]
	One       *inventory.Height // of one runner
}

// Measure records heights.
func (d *Desk) Measure(c Caliper) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		target, err := resolve(v, c.Who, d.Instant())
		if err != nil {
			return nil, err
		}
		deed, err := d.measured(v, m, c, target)
		deed.Reference, deed.AsRead, deed.Doubting = c.Reference, c.AsRead, c.Doubting
		return deed, err
	})
}

func (d *Desk) measured(v inventory.View, m deeds.Moment, c Caliper, target Target) (deeds.MeasureSteel, error) {
	switch {
	case target.Runner != 0 && c.One == nil:
		return deeds.MeasureSteel{}, &inventory.BadValue{Reason: "one runner has one height", Hint: "steeltally measure R1-… 11.2, or toe,middle,heel"}
	case target.Runner != 0:
		runner, err := inventory.FindRunner(v, target.Runner)
		if err != nil {
			return deeds.MeasureSteel{}, err
		}
		height := *c.One
		height.Runner, height.Side = target.Runner, runner.SideAt(d.Instant())
		return deeds.MeasureSteel{Set: target.Set, Heights: []inventory.Height{height}}, nil
	case c.One != nil:
		return deeds.MeasureSteel{}, &inventory.BadValue{Reason: "which side is that height of?", Hint: "--left 11.1 --right 11.0"}
	case target.Set != 0:
		return deeds.MeasureSet(v, target.Set, c.Sides)
	}
	pair, err := pairOf(v, target.Player, c.Pair, d.Instant())
	if err != nil {
		return deeds.MeasureSteel{}, err
	}
	if pair == 0 {
		pair = target.Pair
	}
	return deeds.MeasureOn(v, target.Player, pair, c.Sides, m)
}
