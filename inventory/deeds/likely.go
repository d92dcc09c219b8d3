package deeds

import (
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// The most that usual work takes off, generously; common practice, no source. A pass
// takes 0.015 to 0.025 mm. Who is ground several times a day wears out 3.5 mm of steel
// in two weeks, and some of his grinds may not have been logged.
const (
	mostPassLoss geometry.Millimetre = 0.06
	mostDayLoss  geometry.Millimetre = 0.25
)

// leastLikely is how low a runner can be after a reading by what is recorded of the time
// since then, both readings off by a caliper's slack. It is nil where nobody can say: one
// of the times is vague, the reading itself was doubted, or a work was no usual grind.
func leastLikely(r *inventory.Runner, last inventory.Dated[inventory.Reading], now inventory.When) *geometry.Millimetre {
	passes, known := usualPasses(r, last.When, now)
	if !known || last.Value.AsRead || last.Value.Middle == nil {
		return nil
	}
	days := now.Start.Sub(last.When.Start).Hours()/24 + 1
	least := *last.Value.Middle - 2*caliperSlack - max(mostPassLoss*geometry.Millimetre(passes), mostDayLoss*geometry.Millimetre(days))
	return &least
}

// usualPasses are the most passes of usual grinds between two times, and whether that is all
// that happened at the wheel; honing takes nothing that a caliper shows.
func usualPasses(r *inventory.Runner, since, until inventory.When) (passes int, known bool) {
	if !since.Exact() || !until.Exact() {
		return 0, false
	}
	for _, work := range r.Works.Until(until.Start) {
		over := !work.When.Unknown() && !work.When.End.After(since.Start)
		if over || work.Value.Kind == inventory.WorkHone {
			continue
		}
		if work.When.Unknown() || work.Value.Kind != inventory.WorkGrind {
			return 0, false
		}
		if work.Value.Passes == nil {
			passes += mostPasses // that nobody counted them allows no slip of a caliper
			continue
		}
		passes += *work.Value.Passes
	}
	return passes, true
}

// highest is the higher of the last reading and the last that nobody doubted, or the height
// at stock-in: one that was too low, and kept as read, makes no right one too high. It is
// nil where only a doubted one is known.
func highest(r *inventory.Runner, reference inventory.Reference, last inventory.Dated[inventory.Reading], at time.Time) *geometry.Millimetre {
	high := last.Value.Middle
	for _, reading := range slices.Backward(r.Readings.Until(at)) {
		if reading.Value.Reference != reference || reading.Value.Middle == nil || reading.Value.AsRead {
			continue
		}
		if *reading.Value.Middle > *high {
			high = reading.Value.Middle
		}
		return high
	}
	if r.Height == nil || *r.Height > *high {
		return r.Height
	}
	return high
}

// lastReading is the last reading of a runner on a reference until an instant.
func lastReading(r *inventory.Runner, reference inventory.Reference, at time.Time) (last inventory.Dated[inventory.Reading], found bool) {
	for _, reading := range r.Readings.Until(at) {
		if reading.Value.Reference == reference && reading.Value.Middle != nil {
			last, found = reading, true
		}
	}
	return last, found
}
