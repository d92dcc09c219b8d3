package deeds

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Grind is work at the wheel on what was on a player's pair at that time, or on a set
// in the hand.
type Grind struct {
	Player  inventory.Number
	Pair    inventory.Number   // zero: the pair that the player skates on
	Set     inventory.Number   // zero: the set that was on
	Work    inventory.WorkKind // empty: a grind
	Passes  inventory.Both[int]
	Unknown bool // somebody else ground it, passes unknown
	Hollow  *inventory.Cut
	Machine string
	By      string
	More    bool // "two more left": the passes come on top of the grind before
	Again   bool // a person who was asked says that it is one more
}

// Decide names the runners that got the passes, as things were when it happened: a
// morning grind entered after the noon change goes to the morning's set.
func (d Grind) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	body, err := d.target(v, m, &out)
	if err != nil {
		return out, err
	}
	if d.Work == "" {
		d.Work = inventory.WorkGrind
	}
	if err := oneOf("work", d.Work, inventory.Works()); err != nil {
		return out, inventory.RefuseValue(err.Error(), "")
	}
	if err := d.checkSound(v, m, body); err != nil {
		return out, err
	}
	d.tellWhatIsMeant(v, m, body, &out)
	body.Work, body.Machine, body.By, body.More = d.Work, d.Machine, d.By, d.More
	if d.More {
		if err := d.onlySidesGiven(body); err != nil {
			return out, err
		}
	}
	if err := d.decideHollow(v, m, body); err != nil {
		return out, err
	}
	if err := d.decidePasses(v, m, body, &out); err != nil {
		return out, err
	}
	if !d.More && inventory.TwiceWithin(v, body, m.Happened) {
		if body.Again = d.Again; !d.Again {
			tellTwice(v, body, m, &out)
		}
	}
	tellState(v, body, m.at(), &out)
	out.record(m.Happened, body)
	return out, nil
}

// target is the set that was on, or the set in the hand, with its runners.
func (d Grind) target(v inventory.View, m Moment, out *Outcome) (*inventory.Ground, error) {
	if d.Set != 0 {
		return groundInHand(v, d.Set, m.at())
	}
	player, pair, err := playerAndPair(v, d.Player, d.Pair, m, out)
	if err != nil {
		return nil, err
	}
	body := &inventory.Ground{Player: player.Number, Pair: pair.Number, Set: pair.SetAt(m.at())}
	for _, side := range inventory.Sides() {
		if seat := pair.SeatAt(side, m.at()); seat.Runner != 0 {
			body.Put(side, &inventory.Passes{Runner: seat.Runner})
		}
	}
	if body.Left == nil && body.Right == nil {
		hint, reason := "put a set on first: steeltally in "+player.Typed(m.at())+" A; or give the time with --at", fmt.Sprintf("no steel was on %s's %s pair then", player.Name, pair.Role(m.at()))
		if err := pair.NotOnYet(v, m.at(), reason, hint); err != nil {
			return nil, err
		}
		return nil, inventory.Refuse(reason, hint)
	}
	return body, nil
}

func groundInHand(v inventory.View, n inventory.Number, at time.Time) (*inventory.Ground, error) {
	set, err := inventory.FindSet(v, n)
	if err != nil {
		return nil, err
	}
	if err := checkWhole(v, set, at); err != nil {
		return nil, err
	}
	if standing.SetState(v, set, at) == inventory.Removed {
		return nil, inventory.Refuse("set "+set.Letter+" "+n.Short()+" is done with", "put it on first, if it is used again: steeltally in")
	}
	body := &inventory.Ground{Player: set.Player, Set: n}
	body.Left, body.Right = &inventory.Passes{Runner: set.Left}, &inventory.Passes{Runner: set.Right}
	return body, nil
}

// checkSound refuses to log work on steel that was already found unsafe.
func (d Grind) checkSound(v inventory.View, m Moment, body *inventory.Ground) error {
	for side, passes := range body.Each {
		runner, err := inventory.FindRunner(v, passes.Runner)
		if err != nil {
			return err
		}
		short := passes.Runner.Short()
		switch {
		case standing.OwnSafety(v, runner.Number, m.at()) == standing.DoNotSkate:
			return inventory.Refuse(fmt.Sprintf("the %s runner %s is damaged: do not grind or skate it", side, short), "take it out: steeltally out "+short)
		case !standing.Skateable(v, m.at(), runner.Number):
			return inventory.Refuse(fmt.Sprintf("the %s runner %s may be broken, nobody has looked yet: do not grind or skate it", side, short),
				"steeltally inspect "+short+" if it is sound, steeltally damage "+short+" --mode crack if not")
		}
	}
	return nil
}

// decideHollow notes what was ground across the steel: what was said, else the
// player's hollow at that time.
func (d Grind) decideHollow(v inventory.View, m Moment, body *inventory.Ground) error {
	if d.Work == inventory.WorkNewHollow && d.Hollow == nil {
		return inventory.RefuseValue("a new hollow needs to be named", "add --hollow 1/2in")
	}
	if err := checkCut(d.Hollow); err != nil {
		return err
	}
	body.Hollow = d.Hollow
	if d.Hollow == nil && d.Work == inventory.WorkGrind {
		if player, ok := v.Entity(inventory.RefOf(body.Player)).(*inventory.Player); ok {
			body.Hollow = player.SpecsAt(m.at()).Hollow
		}
	}
	return nil
}

func (d Grind) decidePasses(v inventory.View, m Moment, body *inventory.Ground, out *Outcome) error {
	if d.Unknown || d.Work == inventory.WorkHone && d.Passes.Left == nil && d.Passes.Right == nil {
		return nil
	}
	var usual *int
	if player, ok := v.Entity(inventory.RefOf(body.Player)).(*inventory.Player); ok && d.Passes.Left == nil && d.Passes.Right == nil {
		usual = player.SpecsAt(m.at()).Passes
	}
	for side := range d.Passes.Each {
		if body.Of(side) == nil {
			return inventory.Refuse(fmt.Sprintf("no %s runner was on", side), "leave those passes out")
		}
	}
	for side, passes := range body.Each {
		passes.Passes = d.Passes.Of(side)
		if passes.Passes == nil {
			passes.Passes = usual
		}
		if passes.Passes == nil {
			return inventory.RefuseValue(fmt.Sprintf("how many passes did the %s get?", side),
				"add --passes 5, or note the usual ones: steeltally specs PLAYER --passes 5; unknown ones are --unknown")
		}
		if err := checkPasses(*passes.Passes); err != nil {
			return err
		}
	}
	tellUneven(body, out)
	return nil
}

// onlySidesGiven leaves out the side that got no more passes.
func (d Grind) onlySidesGiven(body *inventory.Ground) error {
	if d.Passes.Left == nil && d.Passes.Right == nil {
		return inventory.RefuseValue("how many more, and on which side?", "such as --more --left 2")
	}
	for _, side := range inventory.Sides() {
		if d.Passes.Of(side) == nil {
			body.Put(side, nil)
		}
	}
	if body.Left == nil && body.Right == nil {
		return inventory.Refuse("no steel was on that side", "scan the pair that is meant")
	}
	return nil
}

// tellTwice says that steel was ground a moment ago, and how this one's grind alone goes back.
func tellTwice(v inventory.View, body *inventory.Ground, m Moment, out *Outcome) {
	whose := body.Set.Short()
	if player, err := inventory.PlayerOf(v, body.Player); err == nil {
		whose = player.Typed(m.at())
	}
	out.tell(whose+" was ground twice within a minute; both are recorded and flagged", "if it was one grind: steeltally undo "+whose)
}
