package deeds

import (
	"errors"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// with is the first thing of a kind that helped; zero is none.
func (d EndEmergency) with(kind inventory.Kind) inventory.Number {
	i := slices.IndexFunc(d.With, func(n inventory.Number) bool { return n.Kind() == kind })
	if i < 0 {
		return 0
	}
	return d.With[i]
}

// carry moves what helped in the record, as it was moved at the bench: the next grind and
// the next emergency are about what is on.
func (d EndEmergency) carry(v inventory.View, m Moment, player *inventory.Player, crisis inventory.Crisis, out *Outcome) error {
	switch d.Did {
	case inventory.RemedyHolder:
		return d.carryHolder(v, m, player, crisis, out)
	case inventory.RemedySteel:
		return d.carrySet(v, m, player, crisis.Pair, out)
	}
	return nil
}

// carryHolder takes the old holder off and rivets the new one on, with the steel that was in
// the old one, or a set that was named.
func (d EndEmergency) carryHolder(v inventory.View, m Moment, player *inventory.Player, crisis inventory.Crisis, out *Outcome) error {
	holder, set := d.with(inventory.KindHolder), d.with(inventory.KindSet)
	if holder == 0 {
		out.tell("which holder went on was not said: in the record the old one is on", "steeltally undo, then say it with --with and the number of the holder")
		return nil
	}
	pair, err := inventory.FindPair(v, crisis.Pair)
	if err != nil {
		return err
	}
	old, seat := pair.HolderAt(crisis.Side, m.at()), pair.SeatAt(crisis.Side, m.at())
	if old == holder {
		return nil // somebody noted it already
	}
	steps := []Deed{RivetOn{Holder: holder, Pair: pair.Number, Side: crisis.Side}}
	if old != 0 {
		steps = append([]Deed{RivetOff{old}}, steps...)
	}
	off, sides := TakeOut{Player: player.Number, Pair: pair.Number, Side: crisis.Side}, []inventory.Side{crisis.Side}
	if set != 0 {
		off.Side, sides = "", inventory.Sides()
	}
	if off.Reason = reasonOff(out.after(v), pair, sides, m.at()); seat.Runner != 0 || set != 0 && pair.SetAt(m.at()) != 0 {
		steps = append([]Deed{off}, steps...)
	}
	if set != 0 {
		steps = append(steps, PutSetIn{Player: player.Number, Set: set, Pair: pair.Number})
	}
	for _, step := range steps {
		if err := out.then(v, m, step); err != nil {
			return err
		}
	}
	if set == 0 && seat.Runner != 0 {
		return putBack(out.after(v), m, pair.Number, crisis.Side, seat, out)
	}
	return nil
}

// putBack puts the runner that was in the old holder of a boot into the new one. What only
// may have broken is on, too, where it was put on: it stays marked.
func putBack(v inventory.View, m Moment, n inventory.Number, side inventory.Side, seat inventory.Seat, out *Outcome) error {
	pair, err1 := inventory.FindPair(v, n)
	runner, err2 := inventory.FindRunner(v, seat.Runner)
	if err := errors.Join(err1, err2); err != nil {
		return err
	}
	holder, err := inventory.FindHolder(v, pair.HolderAt(side, m.at()))
	if err != nil {
		return err
	}
	why, sure := inventory.Fits(v, &runner.Stock, &holder.Stock)
	switch there := pair.SeatAt(side, m.at()).Runner; {
	case there != 0:
		why = there.Short() + " came along in the new holder"
	case standing.OwnSafety(v, runner.Number, m.at()) == standing.DoNotSkate:
		why = "it is damaged: do not skate on it"
	case !sure:
		why = ""
	}
	if why != "" {
		out.tell("runner "+seat.Runner.Short()+" did not go into the new holder: "+why, "steeltally in puts a set on; steeltally work lists a boot without steel")
		return nil
	}
	body := &inventory.PutIn{Player: pair.Player, Pair: n, Set: seat.Set}
	if set, err := inventory.FindSet(v, seat.Set); err == nil {
		body.Order = set.Order(m.at())
	}
	body.Put(side, &inventory.Fit{Runner: seat.Runner, Holder: holder.Number})
	out.record(m.Happened, body)
	return nil
}

// carrySet takes off what is on a pair and puts on the set that helped. Where the record
// does not allow that, what was done is noted, and that it stands otherwise.
func (d EndEmergency) carrySet(v inventory.View, m Moment, player *inventory.Player, n inventory.Number, out *Outcome) error {
	pair, err1 := inventory.FindPair(v, n)
	set, err2 := inventory.FindSet(v, d.with(inventory.KindSet))
	if err := errors.Join(err1, err2); err != nil || pair.SetAt(m.at()) == set.Number {
		return nil
	}
	reason := reasonOff(out.after(v), pair, inventory.Sides(), m.at())
	err := out.then(v, m, ChangeSteel{TakeOut{Player: player.Number, Pair: n, Reason: reason}, set.Number})
	if refusal := new(inventory.Refusal); errors.As(err, &refusal) {
		out.tell("set "+set.Letter+" is not on the pair in this book yet: "+refusal.Reason,
			"once it can be: steeltally change "+player.Typed(m.at())+" "+set.Letter+" --reason "+string(reason))
		return nil
	}
	return err
}

// reasonOff is why steel comes off a pair in an emergency: what is broken of it, else that
// other steel goes on. Sound steel is not done with because a holder broke.
func reasonOff(v inventory.View, pair *inventory.Pair, sides []inventory.Side, at time.Time) inventory.Reason {
	for _, side := range sides {
		runner, err := inventory.FindRunner(v, pair.SeatAt(side, at).Runner)
		if err == nil && standing.OwnSafety(v, runner.Number, at) == standing.DoNotSkate {
			return inventory.ReasonThatForbids(runner.OpenDamages(at))
		}
	}
	return inventory.ReasonRotate
}
