package deeds

import "steeltally/inventory"

// What is noted of steel is settled by what the record says at that time, and what was
// noted since then was settled by that in turn. So nothing is written before what a
// boot, a holder or a runner already did; where the time is unknown, before nothing at
// all.

// hasLater tells whether a line says something that happened after the start of a time.
func hasLater[T any](line inventory.Timeline[T], w inventory.When) bool {
	return len(line) > 0 && line[len(line)-1].When.Start.After(w.Start)
}

func refuseBefore(n inventory.Number, reason string) error {
	return inventory.Refuse("steeltally history "+n.Short()+" shows the later entry: undo that first, then enter both in order", "%s", reason)
}

// refuseLaterBoot refuses to write before what the record already says of a boot.
func refuseLaterBoot(p *inventory.Pair, side inventory.Side, m Moment) error {
	boot := p.Boot(side)
	if hasLater(boot.Runners, m.Happened) || hasLater(boot.Holders, m.Happened) {
		return refuseBefore(p.Number, "the "+string(side)+" boot of "+p.Number.Short()+" was changed after that time")
	}
	return nil
}

// refuseLaterHolder refuses to write before what the record already says of a holder.
func refuseLaterHolder(h *inventory.Holder, m Moment) error {
	if hasLater(h.Runners, m.Happened) || hasLater(h.Boots, m.Happened) {
		return refuseBefore(h.Number, "holder "+h.Number.Short()+" was changed after that time")
	}
	return nil
}

// refuseLaterRunner refuses to write before what the record already says of a runner.
func refuseLaterRunner(r *inventory.Runner, m Moment) error {
	if hasLater(r.Moves, m.Happened) {
		return refuseBefore(r.Number, "runner "+r.Number.Short()+" was used after that time")
	}
	return nil
}
