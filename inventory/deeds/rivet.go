package deeds

import (
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
		return inventory.Refuse("take another holder", "holder %s is damaged: do not skate on it", d.Holder.Short())
	}
	if side != holder.Side {
		return inventory.Refuse("take a "+string(side)+" holder", "%s is a %s holder", d.Holder.Short(), holder.Side)
	}
	if boot := holder.BootAt(at); boot.Pair != 0 {
		return inventory.Refuse("take it off first: steeltally rivet off "+d.Holder.Short(), "%s is on the %s boot of %s", d.Holder.Short(), boot.Side, boot.Pair.Short())
	}
	if there := pair.HolderAt(side, at); there != 0 {
		return inventory.Refuse("take that off first: steeltally rivet off "+there.Short(), "the %s boot of %s has holder %s", side, d.Pair.Short(), there.Short())
	}
	if seat := pair.SeatAt(side, at); seat.Runner != 0 {
		return inventory.Refuse("take the steel out first: steeltally out "+seat.Runner.Short()+" --reason rotate; then rivet, and put it in again",
			"runner %s is in the %s boot of %s, in a holder that nobody entered", seat.Runner.Short(), side, d.Pair.Short())
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
		return inventory.Refuse("take it out first: steeltally out "+runner.Number.Short(),
			"runner %s in it is damaged: do not skate on it", runner.Number.Short())
	}
	b.Runner, b.Set = runner.Number, runner.SetAt(m.at())
	if set, ok := v.Entity(inventory.RefOf(b.Set)).(*inventory.Set); ok && set.Player != b.Player {
		out.tell("take it out if it stays with him: steeltally out "+runner.Number.Short()+" --reason rotate", "runner "+runner.Number.Short()+" in it is another player's")
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
		return out, inventory.Refuse("steeltally history "+d.Holder.Short()+" shows where it was", "%s is on no boot", d.Holder.Short())
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
		out.tell("take it out if it goes elsewhere: steeltally out "+seat.Runner.Short()+" --reason rotate", "runner "+seat.Runner.Short()+" is still in it")
	}
	out.record(m.Happened, body)
	return out, nil
}
