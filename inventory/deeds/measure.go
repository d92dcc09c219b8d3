package deeds

import (
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// MeasureSteel is what a caliper said of one or more runners.
type MeasureSteel struct {
	Player    inventory.Number
	Set       inventory.Number
	Reference inventory.Reference // empty: fitted where the runner is in a holder, else loose
	AsRead    bool                // keep what looks like a slip; it is flagged
	Doubting  bool                // refuse what is far too low, too: somebody is there to look again
	Heights   []inventory.Height
	Whose     []inventory.Notice // which pair they were found on
}

// caliperSlack is how much higher than the last time a height may be before it is a
// slip: a caliper repeats to 0.1–0.2 mm on fitted steel; common practice, no source.
const caliperSlack geometry.Millimetre = 0.3

// mostReadable is the most that is kept as read: no steel and no caliper's jaw is
// higher, so it is no height at all.
const mostReadable geometry.Millimetre = 100

// Decide refuses what can't be a height, or is higher than the last one of the same runner
// and reference, unless it shall be kept as read. What is far lower than is explained may
// be steel that nobody logged: it is kept as read and flagged.
func (d MeasureSteel) Decide(v inventory.View, m Moment) (Outcome, error) {
	out := Outcome{Notices: slices.Clone(d.Whose)}
	if len(d.Heights) == 0 {
		return out, inventory.RefuseValue("such as --left 11.1 --right 11.0", "no height was given")
	}
	body := &inventory.Measured{Player: d.Player, Set: d.Set, Heights: slices.Clone(d.Heights)}
	for i := range body.Heights {
		height := &body.Heights[i]
		runner, err := inventory.FindRunner(v, height.Runner)
		if err != nil {
			return out, err
		}
		if err := d.decideReference(v, runner, body, m); err != nil {
			return out, err
		}
		if err := d.check(v, runner, height, body.Reference, m, &out); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, body)
	return out, nil
}

// decideReference settles what all heights were measured on: what was said, else what
// the runners are in. Loose and fitted heights are never mixed.
func (d MeasureSteel) decideReference(v inventory.View, runner *inventory.Runner, body *inventory.Measured, m Moment) error {
	reference := d.Reference
	if reference == "" {
		reference = referenceOf(v, runner, m.at())
	} else if err := oneOf("reference", string(reference), []string{string(inventory.Loose), string(inventory.Fitted)}); err != nil {
		return inventory.RefuseValue("", "%v", err)
	}
	if body.Reference != "" && body.Reference != reference {
		return inventory.RefuseValue("enter them one after the other, or say what both were measured in: --loose or --fitted", "one runner is in a holder, the other in the hand")
	}
	body.Reference = reference
	return nil
}

func referenceOf(v inventory.View, runner *inventory.Runner, at time.Time) inventory.Reference {
	if standing.Held(v, runner, at) {
		return inventory.Fitted
	}
	return inventory.Loose
}

// check refuses a height that is none, and a slip unless it shall be kept as read.
func (d MeasureSteel) check(v inventory.View, runner *inventory.Runner, height *inventory.Height, reference inventory.Reference, m Moment, out *Outcome) error {
	if height.Middle == nil {
		return inventory.RefuseValue("the middle is what is compared; toe and heel come on top", "%s: the height of the middle is missing", runner.Number.Short())
	}
	slip, err := slipOf(runner, height, reference, m)
	if err != nil {
		return err
	}
	refused := slip != nil || d.Doubting
	if slip == nil {
		slip = d.farLower(v, runner, height, reference, m.Happened)
	}
	if slip == nil {
		return nil
	}
	if refused && !d.AsRead {
		return &Slip{slip}
	}
	height.AsRead = true
	out.tell("measure again when you can", slip.Error()+"; kept as read")
	return nil
}

// Slip says that a height looks like a slip of the caliper, and why.
type Slip struct{ Cause error }

func (s *Slip) Error() string { return s.Cause.Error() }

func (s *Slip) Unwrap() error { return s.Cause }

// slipOf tells why a height looks like a slip, or nothing; what can't be a height at all
// is an error.
func slipOf(runner *inventory.Runner, height *inventory.Height, reference inventory.Reference, m Moment) (slip, err error) {
	const asRead = "; to keep it as read add --as-read"
	for _, value := range []*geometry.Millimetre{height.Toe, height.Middle, height.Heel} {
		if value == nil {
			continue
		}
		if !(*value > 0 && *value <= mostReadable) {
			return nil, inventory.RefuseValue(inventory.HeightLimitsHint, "%s: a height of %s can't be right", runner.Number.Short(), *value)
		}
		if err := inventory.CheckHeight("height", *value); err != nil && slip == nil {
			slip = inventory.RefuseValue(inventory.HeightLimitsHint+asRead, "%s: %v", runner.Number.Short(), err)
		}
	}
	if slip == nil {
		slip = besideLast(runner, height, reference, m.Happened, asRead)
	}
	return slip, nil
}

// besideLast tells why a height can hardly follow on the last one of the same reference,
// or nothing. A loose one follows on the height at stock-in, which tells no more than
// how high it can be: of what was ground before that the record knows nothing.
func besideLast(runner *inventory.Runner, height *inventory.Height, reference inventory.Reference, now inventory.When, asRead string) error {
	high, since := runner.Height, "at stock-in"
	last, found := lastReading(runner, reference, now.Start)
	if found {
		high, since = highest(runner, reference, last, now.Start), "last time"
	}
	if (found || reference == inventory.Loose) && high != nil && *height.Middle > *high+caliperSlack {
		return inventory.Refuse("measure again, or take the wrong one before back"+asRead, "%s: %s is higher than %s, %s", runner.Number.Short(), *height.Middle, since, *high)
	}
	return nil
}

// farLower tells why a height is lower than what was ground since the last one explains,
// or, the first one of its reference, than the height at stock-in does; else nothing.
func (d MeasureSteel) farLower(v inventory.View, runner *inventory.Runner, height *inventory.Height, reference inventory.Reference, now inventory.When) error {
	last, found := lastReading(runner, reference, now.Start)
	if !found {
		return d.firstFarLower(v, runner, height, reference, now)
	}
	least := leastLikely(runner, last, now)
	if least == nil || *height.Middle >= *least {
		return nil
	}
	return inventory.Refuse("measure again, enter what was ground since, or take the wrong one before back; if the steel really is that low add --as-read",
		"%s: %s is far lower than last time, %s: what is recorded since then explains %s at the lowest", runner.Number.Short(), *height.Middle, *last.Value.Middle, *least)
}

// MeasureOn names the runners that were on a player's pair for heights that were
// given by side.
func MeasureOn(v inventory.View, player, pair inventory.Number, heights inventory.Both[inventory.Height], m Moment) (MeasureSteel, error) {
	var out Outcome
	p, boots, err := playerAndPair(v, player, pair, m, &out)
	if err != nil {
		return MeasureSteel{}, err
	}
	measure := MeasureSteel{Player: p.Number, Set: boots.SetAt(m.at()), Whose: out.Notices}
	for side, height := range heights.Each {
		seat := boots.SeatAt(side, m.at())
		if seat.Runner == 0 {
			return measure, inventory.Refuse("scan the runner itself", "no %s runner was on %s's %s pair then", side, p.Name, boots.Role(m.at()))
		}
		named := *height
		named.Runner, named.Side = seat.Runner, side
		measure.Heights = append(measure.Heights, named)
	}
	return measure, nil
}

// MeasureSet names a set's runners for heights that were given by side.
func MeasureSet(v inventory.View, n inventory.Number, heights inventory.Both[inventory.Height]) (MeasureSteel, error) {
	set, err := inventory.FindSet(v, n)
	if err != nil {
		return MeasureSteel{}, err
	}
	measure := MeasureSteel{Player: set.Player, Set: n}
	for side, height := range heights.Each {
		named := *height
		named.Runner, named.Side = set.Runner(side), side
		measure.Heights = append(measure.Heights, named)
	}
	return measure, nil
}
