package inventory

// RivetOn puts a holder on a boot.
type RivetOn struct {
	Holder Number
	Pair   Number
	Side   Side // empty: the holder's own
}

// Decide checks side, damage and that the boot is free. A runner in the holder comes
// along.
func (d RivetOn) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	holder, err := FindHolder(v, d.Holder)
	if err != nil {
		return out, err
	}
	pair, err := FindPair(v, d.Pair)
	if err != nil {
		return out, err
	}
	side := d.Side
	if side == "" {
		side = holder.Side
	}
	if err := d.check(holder, pair, side, m); err != nil {
		return out, err
	}
	body := &Riveted{Holder: d.Holder, Pair: d.Pair, Side: side, Player: pair.Player}
	if runner, ok := v.Entity(RefOf(holder.RunnerAt(m.at()))).(*Runner); ok {
		body.Runner, body.Set = runner.Number, runner.SetAt(m.at())
	}
	out.record(m.Happened, body)
	return out, nil
}

func (d RivetOn) check(holder *Holder, pair *Pair, side Side, m Moment) error {
	at := m.at()
	if holder.DoNotSkate(at) {
		return refuse("take another holder", "holder %s is damaged: do not skate on it", d.Holder.Short())
	}
	if side != holder.Side {
		return refuse("take a "+string(side)+" holder", "%s is a %s holder", d.Holder.Short(), holder.Side)
	}
	if boot := holder.BootAt(at); boot.Pair != 0 {
		return refuse("take it off first: steeltally rivet off "+d.Holder.Short(), "%s is on the %s boot of %s", d.Holder.Short(), boot.Side, boot.Pair.Short())
	}
	if there := pair.HolderAt(side, at); there != 0 {
		return refuse("take that off first: steeltally rivet off "+there.Short(), "the %s boot of %s has holder %s", side, d.Pair.Short(), there.Short())
	}
	return pair.refuseLater(side, m)
}

// refuseLater refuses to write before what the record already says of a boot, because
// what was noted since then was settled by what it said.
func (p *Pair) refuseLater(side Side, m Moment) error {
	boot, at := p.Boot(side), m.at()
	later := len(boot.Runners.Until(at)) < len(boot.Runners) || len(boot.Holders.Until(at)) < len(boot.Holders)
	if later {
		return refuse("look at steeltally history "+p.Number.Short()+", undo the later entry first, then enter both in order",
			"the %s boot of %s was changed after that time", side, p.Number.Short())
	}
	return nil
}

// RivetOff takes a holder off its boot, with the runner that is in it.
type RivetOff struct{ Holder Number }

// Decide records that the holder, and the runner in it, hang on no boot.
func (d RivetOff) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	at := m.at()
	holder, err := FindHolder(v, d.Holder)
	if err != nil {
		return out, err
	}
	boot := holder.BootAt(at)
	if boot.Pair == 0 {
		return out, refuse("", "%s is on no boot", d.Holder.Short())
	}
	pair, err := FindPair(v, boot.Pair)
	if err != nil {
		return out, err
	}
	if err := pair.refuseLater(boot.Side, m); err != nil {
		return out, err
	}
	body := &Riveted{Holder: d.Holder, Pair: boot.Pair, Side: boot.Side, Off: true, Player: pair.Player}
	if seat := pair.SeatAt(boot.Side, at); seat.Runner != 0 && seat.Holder == d.Holder {
		body.Runner, body.Set = seat.Runner, seat.Set
		out.tell("take it out if it goes elsewhere: steeltally out "+seat.Runner.Short(), "runner "+seat.Runner.Short()+" is still in it")
	}
	out.record(m.Happened, body)
	return out, nil
}
