package deeds

import (
	"slices"

	"steeltally/geometry"
	"steeltally/inventory"
)

// mostWornPart is the part of its height when new that no steel is worn beyond: it is
// changed long before that; common practice, no source.
const mostWornPart = 0.5

// setSlack is how much lower than its mate used steel may have come into a set; common
// practice, no source.
const setSlack geometry.Millimetre = 0.6

// firstFarLower tells why a first height is far lower than the one at stock-in explains,
// or nothing. That one is the height when new: used steel has it too, and fitted steel may
// count from another zero. So a height is doubted where the other runner of the set did
// not come down as far, or where the half of the steel would be gone.
func (d MeasureSteel) firstFarLower(v inventory.View, runner *inventory.Runner, height *inventory.Height, reference inventory.Reference, now inventory.When) error {
	if runner.Height == nil || !runner.Recorded() {
		return nil
	}
	const hint = "measure again; if the steel really is that low add --as-read"
	beside, mate := d.besideMate(v, runner, reference, now)
	least := leastLikely(runner, beside, now)
	if mate != 0 && least != nil && *height.Middle < *least {
		return inventory.Refuse(hint, "%s: %s is far lower than at stock-in, %s: %s beside it explains %s at the lowest",
			runner.Number.Short(), *height.Middle, *runner.Height, mate.Short(), *least)
	}
	asLow := mate != 0 && least != nil && reference == inventory.Fitted // as its mate: both count from another zero
	if half := mostWornPart * *runner.Height; *height.Middle < half && !asLow {
		return inventory.Refuse(hint, "%s: %s is far lower than at stock-in, %s: not even half of the steel would be left",
			runner.Number.Short(), *height.Middle, *runner.Height)
	}
	return nil
}

// besideMate is what a runner would have measured when the other one of its set was: lower
// than at stock-in by as much. The mate is zero where no such height is known.
func (d MeasureSteel) besideMate(v inventory.View, runner *inventory.Runner, reference inventory.Reference, now inventory.When) (beside inventory.Dated[inventory.Reading], n inventory.Number) {
	mate := wornAlike(v, runner, now)
	if mate == nil || mate.Height == nil {
		return beside, 0
	}
	last, found := d.readingOf(mate, reference, now)
	if !found || *last.Value.Middle > *mate.Height+caliperSlack {
		return beside, 0 // one that has grown is a slip itself, or counts from another zero
	}
	lost := max(0, *mate.Height-*last.Value.Middle)
	high := *runner.Height - lost - setSlack
	last.Value = inventory.Reading{Reference: reference, Middle: &high, AsRead: last.Value.AsRead}
	return last, mate.Number
}

// readingOf is a runner's height in this deed, else the last one before.
func (d MeasureSteel) readingOf(r *inventory.Runner, reference inventory.Reference, now inventory.When) (inventory.Dated[inventory.Reading], bool) {
	for _, height := range d.Heights {
		if height.Runner == r.Number && height.Middle != nil {
			return inventory.Dated[inventory.Reading]{When: now, Value: inventory.Reading{Reference: reference, Middle: height.Middle}}, true
		}
	}
	return lastReading(r, reference, now.Start)
}

// wornAlike is the other runner of the set that a runner is in, where every work at the
// wheel was one on both; else nil.
func wornAlike(v inventory.View, runner *inventory.Runner, now inventory.When) *inventory.Runner {
	move, _ := runner.Moves.At(now.Start)
	set, err := inventory.FindSet(v, move.Set)
	if err != nil {
		return nil
	}
	mate, err := inventory.FindRunner(v, mateOf(set, runner.Number))
	if err != nil || !mate.Recorded() || !slices.Equal(worksOf(runner, now), worksOf(mate, now)) {
		return nil
	}
	return mate
}

// worksOf are the entries of a runner's works but honing, which takes no steel that a
// caliper shows.
func worksOf(r *inventory.Runner, until inventory.When) []inventory.Key {
	var keys []inventory.Key
	for _, work := range r.Works.Until(until.Start) {
		if work.Value.Kind != inventory.WorkHone {
			keys = append(keys, work.Event)
		}
	}
	return keys
}

// sayFarFromModel tells of a stock-in's height that new or used steel of its model hardly has.
func sayFarFromModel(height, model geometry.Millimetre, name string, out *Outcome) {
	if height < mostWornPart*model || height > model/mostWornPart {
		out.tell("if that was a slip: steeltally undo, and enter it anew", height.String()+" is far from the height of model "+name+" when new, "+model.String())
	}
}
