package desk

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// allPlayers stands for everybody who has steel on.
const allPlayers = "all"

// Grind logs work at the wheel for one or several players, or on a set in the hand;
// for all but some where all is said.
func (d *Desk) Grind(who, but []string, pair string, work deeds.Grind) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		if len(who) == 1 && who[0] == allPlayers {
			if pair != "" {
				return nil, &inventory.BadValue{Reason: "--pair goes with players who are named", Hint: "such as steeltally grind 4 7 --pair spare"}
			}
			return d.grindAll(v, but, work)
		}
		if len(but) > 0 {
			return nil, &inventory.BadValue{Reason: "--but goes with all", Hint: "steeltally grind all --but 7,19"}
		}
		if len(who) == 1 {
			return d.grindOne(v, who[0], pair, work)
		}
		return d.grindSeveral(v, who, pair, work)
	})
}

// grindSeveral is work on the pair of each that was scanned or named, else on what he
// skates on.
func (d *Desk) grindSeveral(v inventory.View, who []string, pair string, work deeds.Grind) (deeds.Deed, error) {
	many := deeds.GrindMany{Each: work}
	var err error
	if many.Players, err = d.resolveAll(v, who, resolvePlayer); err != nil {
		return nil, err
	}
	for i, text := range who {
		target, err := resolve(v, text, d.Instant())
		if err == nil && pair != "" {
			target.Pair, err = pairOf(v, many.Players[i], pair, d.Instant())
		}
		if err == nil && target.Set != 0 {
			err = &inventory.BadValue{Reason: text + " is a set, and others are named with it", Hint: "grind it for itself: steeltally grind " + text}
		}
		if err != nil {
			return nil, err
		}
		many.Pairs = append(many.Pairs, target.Pair)
	}
	return many, nil
}

func (d *Desk) grindOne(v inventory.View, who, pair string, work deeds.Grind) (deeds.Deed, error) {
	target, err := resolve(v, who, d.Instant())
	if err != nil {
		return nil, err
	}
	if target.Runner != 0 && target.Set == 0 {
		return nil, &inventory.Refusal{Reason: who + " is in no set", Hint: "match it first: steeltally set add"}
	}
	work.Player, work.Pair = target.Player, target.Pair
	if pair != "" {
		work.Pair, err = pairOf(v, target.Player, pair, d.Instant())
	}
	if target.Set != 0 {
		work.Set = target.Set
		work.Player, work.Pair = 0, 0
	}
	return work, err
}

func (d *Desk) grindAll(v inventory.View, but []string, work deeds.Grind) (deeds.Deed, error) {
	left, err := d.resolveAll(v, but, resolvePlayer)
	if err != nil {
		return nil, err
	}
	players := slices.DeleteFunc(standing.Skating(v, d.Instant()), func(n inventory.Number) bool { return slices.Contains(left, n) })
	if len(players) == 0 {
		return nil, &inventory.Refusal{Reason: "nobody has steel on", Hint: "put sets on first: steeltally in"}
	}
	return deeds.GrindMany{Players: players, Each: work, Any: true}, nil
}

func (d *Desk) resolveAll(v inventory.View, texts []string, player playerFinder) ([]inventory.Number, error) {
	var players []inventory.Number
	for _, text := range texts {
		n, err := player(v, text, d.Instant())
		if err != nil {
			return nil, err
		}
		if slices.Contains(players, n) {
			return nil, &inventory.BadValue{Reason: text + " is named twice", Hint: "name each player once"}
		}
		players = append(players, n)
	}
	return players, nil
}

// GroundJustNow tells whether the steel that is meant was ground within the last minute.
func (d *Desk) GroundJustNow(who string) (bool, error) {
	twice := false
	err := d.ask(func(v inventory.View, at time.Time) error {
		deed, err := d.grindOne(v, who, "", deeds.Grind{Unknown: true})
		if err != nil {
			return nil // the grind itself will say why
		}
		m := deeds.Moment{Happened: inventory.At(at), Now: at}
		outcome, err := deed.Decide(v, m)
		if err != nil {
			return nil
		}
		for _, draft := range outcome.Drafts {
			if body, ok := draft.Body.(*inventory.Ground); ok {
				twice = twice || inventory.TwiceWithin(v, body, m.Happened)
			}
		}
		return nil
	})
	return twice, err
}

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
