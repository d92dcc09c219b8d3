package deeds

import (
	"fmt"

	"steeltally/inventory/standing"
)

import "steeltally/inventory"

// RivetOn puts a holder on a boot.
type RivetOn struct {
	Holder inventory.Number
	Pair   inventory.Number
	Side   inventory.Side // empty: the holder's own
}

// Decide checks side, damage and that the boot is free. A runner in the holder comes
// along.
func (d RivetOn) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	holder, err := inventory.FindHolder(v, d.Holder)
	if err != nil {
		return out, err
	}
	pair, err := inventory.FindPair(v, d.Pair)
	if err != nil {
		return out, err
	}
	side := d.Side
	if side == "" {
		side = holder.Side
	}
	if err := d.check(v, holder, pair, side, m); err != nil {
		return out, err
	}
	body := &inventory.Riveted{Holder: d.Holder, Pair: d.Pair, Side: side, Player: pair.Player}
	if err := bringAlong(v, body, holder, m, &out); err != nil {
		return out, err
	}
	out.record(m.Happened, body)
	return out, nil
}

func (d RivetOn) check(v inventory.View, holder *inventory.Holder, pair *inventory.Pair, side inventory.Side, m Moment) error {
	at := m.at()
	if !standing.Skateable(v, at, d.Holder) {
		return inventory.Refuse("holder "+d.Holder.Short()+" is damaged: do not skate on it", "take another holder")
	}
	if side != holder.Side {
		return inventory.Refuse(fmt.Sprintf("%s is a %s holder", d.Holder.Short(), holder.Side), "take a "+string(side)+" holder")
	}
	if boot := holder.BootAt(at); boot.Pair != 0 {
		return inventory.Refuse(fmt.Sprintf("%s is on the %s boot of %s", d.Holder.Short(), boot.Side, boot.Pair.Short()), "take it off first: steeltally rivet off "+d.Holder.Short())
	}
	if there := pair.HolderAt(side, at); there != 0 {
		return inventory.Refuse(fmt.Sprintf("the %s boot of %s has holder %s", side, d.Pair.Short(), there.Short()), "take that off first: steeltally rivet off "+there.Short())
	}
	if seat := pair.SeatAt(side, at); seat.Runner != 0 {
		return inventory.Refuse(fmt.Sprintf("runner %s is in the %s boot of %s, in a holder that nobody entered", seat.Runner.Short(), side, d.Pair.Short()),
			"take the steel out first: steeltally out "+seat.Runner.Short()+" --reason rotate; then rivet, and put it in again")
	}
	if err := refuseLaterHolder(holder, m); err != nil {
		return err
	}
	return refuseLaterBoot(pair, side, m)
}

// bringAlong adds the runner that is in a holder.
func bringAlong(v inventory.View, b *inventory.Riveted, holder *inventory.Holder, m Moment, out *Outcome) error {
	runner, ok := v.Entity(inventory.RefOf(holder.RunnerAt(m.at()))).(*inventory.Runner)
	if !ok {
		return nil
	}
	if !standing.Skateable(v, m.at(), runner.Number) {
		return inventory.Refuse("runner "+runner.Number.Short()+" in it is damaged: do not skate on it",
			"take it out first: steeltally out "+runner.Number.Short())
	}
	b.Runner, b.Set = runner.Number, runner.SetAt(m.at())
	if set, ok := v.Entity(inventory.RefOf(b.Set)).(*inventory.Set); ok && set.Player != b.Player {
		out.tell("runner "+runner.Number.Short()+" in it is another player's", "take it out if it stays with him: steeltally out "+runner.Number.Short()+" --reason rotate")
	}
	return nil
}

// RivetOff takes a holder off its boot, with the runner that is in it.
type RivetOff struct{ Holder inventory.Number }

// Decide records that the holder, and the runner in it, hang on no boot.
func (d RivetOff) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	at := m.at()
	holder, err := inventory.FindHolder(v, d.Holder)
	if err != nil {
		return out, err
	}
	boot := holder.BootAt(at)
	if boot.Pair == 0 {
		return out, inventory.Refuse(d.Holder.Short()+" is on no boot", "steeltally history "+d.Holder.Short()+" shows where it was")
	}
	pair, err := inventory.FindPair(v, boot.Pair)
	if err != nil {
		return out, err
	}
	if err := refuseLaterHolder(holder, m); err != nil {
		return out, err
	}
	if err := refuseLaterBoot(pair, boot.Side, m); err != nil {
		return out, err
	}
	body := &inventory.Riveted{Holder: d.Holder, Pair: boot.Pair, Side: boot.Side, Off: true, Player: pair.Player}
	if seat := pair.SeatAt(boot.Side, at); seat.Runner != 0 && seat.Holder == d.Holder {
		body.Runner, body.Set = seat.Runner, seat.Set
		out.tell("runner "+seat.Runner.Short()+" is still in it", "take it out if it goes elsewhere: steeltally out "+seat.Runner.Short()+" --reason rotate")
	}
	out.record(m.Happened, body)
	return out, nil
}
