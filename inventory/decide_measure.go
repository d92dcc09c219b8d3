package inventory

import (
	"time"

	"steeltally/geometry"
)

// MeasureSteel is what a caliper said of one or more runners.
type MeasureSteel struct {
	Player    Number
	Set       Number
	Reference Reference // empty: fitted where the runner is in a holder, else loose
	AsRead    bool      // keep what looks like a slip; it is flagged
	Heights   []Height
}

// caliperSlack is how much higher than the last time a height may be before it is a
// slip: a caliper repeats to 0.1–0.2 mm on fitted steel; common practice, no source.
const caliperSlack geometry.Millimetre = 0.3

// Decide refuses what can't be a height, or is higher than the last one of the same
// runner and reference, unless it shall be kept as read.
func (d MeasureSteel) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Heights) == 0 {
		return out, badValue("such as --left 11.1 --right 11.0", "no height was given")
	}
	reference := d.Reference
	for _, height := range d.Heights {
		runner, err := FindRunner(v, height.Runner)
		if err != nil {
			return out, err
		}
		if reference == "" {
			reference = referenceOf(runner, m.at())
		}
		if err := d.check(runner, height, reference, m, &out); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, &Measured{Player: d.Player, Set: d.Set, Reference: reference, AsRead: d.AsRead, Heights: d.Heights})
	return out, nil
}

func referenceOf(runner *Runner, at time.Time) Reference {
	switch runner.StateAt(at) {
	case On, InHolder:
		return Fitted
	}
	return Loose
}

func (d MeasureSteel) check(runner *Runner, height Height, reference Reference, m Moment, out *Outcome) error {
	for _, value := range []*geometry.Millimetre{height.Toe, height.Middle, height.Heel} {
		if value == nil {
			continue
		}
		if *value <= 0 {
			return badValue(heightLimitsHint, "a height of %s can't be right", *value)
		}
		if err := checkHeight("height", *value); err != nil && !d.AsRead {
			return badValue(heightLimitsHint+"; to keep it as read add --as-read", "%s %v", runner.Number.Short(), err)
		}
	}
	last := lastOf(runner, reference, m.at())
	if last == nil || height.Middle == nil || *height.Middle <= *last+caliperSlack {
		return nil
	}
	if !d.AsRead {
		return refuse("measure again; to keep it as read add --as-read", "%s: %s is higher than last time, %s", runner.Number.Short(), *height.Middle, *last)
	}
	out.tell("measure again when you can", runner.Number.Short()+": higher than last time; kept as read")
	return nil
}

// lastOf is the last middle height of a runner on a reference; a loose one starts
// from the height at stock-in.
func lastOf(runner *Runner, reference Reference, at time.Time) *geometry.Millimetre {
	readings := runner.Readings.Until(at)
	for i := len(readings) - 1; i >= 0; i-- {
		if r := readings[i].Value; r.Reference == reference && r.Middle != nil {
			return r.Middle
		}
	}
	if reference == Loose {
		return runner.Height
	}
	return nil
}

// MeasureOn names the runners that were on a player's pair for heights that were
// given by side.
func MeasureOn(v View, player, pair Number, heights Both[Height], m Moment) (MeasureSteel, error) {
	p, boots, err := playerAndPair(v, player, pair, m.at())
	if err != nil {
		return MeasureSteel{}, err
	}
	measure := MeasureSteel{Player: p.Number, Set: boots.SetAt(m.at())}
	for side, height := range heights.Each {
		seat := boots.SeatAt(side, m.at())
		if seat.Runner == 0 {
			return measure, refuse("scan the runner itself", "no %s runner was on %s's %s pair then", side, p.Name, boots.Role(m.at()))
		}
		height.Runner, height.Side = seat.Runner, side
		measure.Heights = append(measure.Heights, *height)
	}
	return measure, nil
}

// MeasureSet names a set's runners for heights that were given by side.
func MeasureSet(v View, n Number, heights Both[Height]) (MeasureSteel, error) {
	set, err := FindSet(v, n)
	if err != nil {
		return MeasureSteel{}, err
	}
	measure := MeasureSteel{Player: set.Player, Set: n}
	for side, height := range heights.Each {
		height.Runner, height.Side = set.Runner(side), side
		measure.Heights = append(measure.Heights, *height)
	}
	return measure, nil
}
