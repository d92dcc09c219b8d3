package inventory

// What is noted of steel is settled by what the record says at that time, and what was
// noted since then was settled by that in turn. So nothing is written before what a
// boot, a holder or a runner already did; where the time is unknown, before nothing at
// all.

// hasLater tells whether a line says something that happened after the start of a time.
func (line Timeline[T]) hasLater(w When) bool {
	return len(line) > 0 && line[len(line)-1].When.Start.After(w.Start)
}

func refuseBefore(n Number, reason string) error {
	return refuse("look at steeltally history "+n.Short()+", undo the later entry first, then enter both in order", "%s", reason)
}

// refuseLater refuses to write before what the record already says of a boot.
func (p *Pair) refuseLater(side Side, m Moment) error {
	boot := p.Boot(side)
	if boot.Runners.hasLater(m.Happened) || boot.Holders.hasLater(m.Happened) {
		return refuseBefore(p.Number, "the "+string(side)+" boot of "+p.Number.Short()+" was changed after that time")
	}
	return nil
}

// refuseLater refuses to write before what the record already says of a holder.
func (h *Holder) refuseLater(m Moment) error {
	if h.Runners.hasLater(m.Happened) || h.Boots.hasLater(m.Happened) {
		return refuseBefore(h.Number, "holder "+h.Number.Short()+" was changed after that time")
	}
	return nil
}

// refuseLater refuses to write before what the record already says of a runner.
func (r *Runner) refuseLater(m Moment) error {
	if r.Moves.hasLater(m.Happened) {
		return refuseBefore(r.Number, "runner "+r.Number.Short()+" was used after that time")
	}
	return nil
}
