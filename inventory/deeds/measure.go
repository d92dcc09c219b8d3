package deeds

import (
	"fmt"
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
		return out, inventory.RefuseValue("no height was given", "such as --left 11.1 --right 11.0")
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
		return inventory.RefuseValue(err.Error(), "")
	}
	if body.Reference != "" && body.Reference != reference {
		return inventory.RefuseValue("one runner is in a holder, the other in the hand", "enter them one after the other, or say what both were measured in: --loose or --fitted")
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
		return inventory.RefuseValue(runner.Number.Short()+": the height of the middle is missing", "the middle is what is compared; toe and heel come on top")
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
	out.tell(slip.Error()+"; kept as read", "measure again when you can")
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
			return nil, inventory.RefuseValue(fmt.Sprintf("%s: a height of %s can't be right", runner.Number.Short(), *value), inventory.HeightLimitsHint)
		}
		if err := inventory.CheckHeight("height", *value); err != nil && slip == nil {
			slip = inventory.RefuseValue(fmt.Sprintf("%s: %v", runner.Number.Short(), err), inventory.HeightLimitsHint+asRead)
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
		return inventory.Refuse(fmt.Sprintf("%s: %s is higher than %s, %s", runner.Number.Short(), *height.Middle, since, *high), "measure again, or take the wrong one before back"+asRead)
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
	return inventory.Refuse(fmt.Sprintf("%s: %s is far lower than last time, %s: what is recorded since then explains %s at the lowest", runner.Number.Short(), *height.Middle, *last.Value.Middle, *least),
		"measure again, enter what was ground since, or take the wrong one before back; if the steel really is that low add --as-read")
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
			return measure, inventory.Refuse(fmt.Sprintf("no %s runner was on %s's %s pair then", side, p.Name, boots.Role(m.at())), "scan the runner itself")
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
		return inventory.Refuse(fmt.Sprintf("%s: %s is far lower than at stock-in, %s: %s beside it explains %s at the lowest", runner.Number.Short(), *height.Middle, *runner.Height, mate.Short(), *least),
			hint)
	}
	asLow := mate != 0 && least != nil && reference == inventory.Fitted // as its mate: both count from another zero
	if half := mostWornPart * *runner.Height; *height.Middle < half && !asLow {
		return inventory.Refuse(fmt.Sprintf("%s: %s is far lower than at stock-in, %s: not even half of the steel would be left", runner.Number.Short(), *height.Middle, *runner.Height),
			hint)
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
		out.tell(height.String()+" is far from the height of model "+name+" when new, "+model.String(), "if that was a slip: steeltally undo, and enter it anew")
	}
}

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
