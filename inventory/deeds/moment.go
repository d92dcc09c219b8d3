// Package deeds decides what a thing that a person does comes to: which events are to be
// recorded of it, or why it can't be. A deed looks at the record as it stands at an
// instant, and at nothing else: no clock, no file, no printer.
package deeds

import (
	"fmt"
	"time"

	"steeltally/inventory"
)

// Moment is the instant that a command is about, and the instant at which it is given.
type Moment struct {
	Happened inventory.When
	Now      time.Time
}

// clockTolerance is how far two machines' clocks may differ before a time counts as
// being in the future.
const clockTolerance = 2 * time.Minute

// NewMoment refuses a time that is still to come, told in the zone of now, and a clock
// that stands in a year that no record is about.
func NewMoment(happened inventory.When, now time.Time) (Moment, error) {
	if !inventory.At(now).InYears(now.Location()) {
		return Moment{}, inventory.RefuseValue(fmt.Sprintf("this machine's clock says %s: under that date nothing is recorded", inventory.At(now).Say(now.Location())),
			"set this machine's clock, then enter it again")
	}
	if happened.After(now.Add(clockTolerance)) {
		return Moment{}, inventory.RefuseValue(fmt.Sprintf("%s is in the future", happened.Say(now.Location())),
			"check the date and the year; what is to come goes into the schedule: steeltally game add")
	}
	return Moment{happened, now}, nil
}

// at is the instant at which the record is looked at: the start of a vague time, and
// now where nothing is known of the time.
func (m Moment) at() time.Time {
	if m.Happened.Unknown() {
		return m.Now
	}
	return m.Happened.Start
}

// Outcome is what a decision comes to: what to record, as one action, and what to
// tell the person.
type Outcome struct {
	Drafts  []inventory.Draft
	Notices []inventory.Notice
	Left    []inventory.Unworked // those who were meant, too, and for whom nothing can be recorded
}

func (o *Outcome) record(happened inventory.When, body inventory.Body) {
	o.Drafts = append(o.Drafts, inventory.Draft{Happened: happened, Body: body})
}

// add takes over what another decision came to.
func (o *Outcome) add(other Outcome) {
	o.Drafts, o.Notices = append(o.Drafts, other.Drafts...), append(o.Notices, other.Notices...)
}

func (o *Outcome) tell(text, hint string) {
	o.Notices = append(o.Notices, inventory.Notice{Text: text, Hint: hint})
}

// Deed is one thing that a person does. Decide says what is to be recorded of it, or
// why it can't be; it depends on nothing but its arguments.
type Deed interface {
	Decide(v inventory.View, m Moment) (Outcome, error)
}

// What is noted of steel is settled by what the record says at that time, and what was
// noted since then was settled by that in turn. So nothing is written before what a
// boot, a holder or a runner already did; where the time is unknown, before nothing at
// all.

// hasLater tells whether a line says something that happened after the start of a time.
func hasLater[T any](line inventory.Timeline[T], w inventory.When) bool {
	return len(line) > 0 && line[len(line)-1].When.Start.After(w.Start)
}

func refuseBefore(n inventory.Number, reason string) error {
	return inventory.Refuse(reason, "steeltally history "+n.Short()+" shows the later entry: undo that first, then enter both in order")
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
