package inventory

import (
	"fmt"
	"slices"
	"time"

	"steeltally/geometry"
)

// Work is one work at the wheel on one runner. Passes is nil where unknown.
type Work struct {
	Kind   WorkKind `json:"kind"`
	Passes *int     `json:"passes"`
	Player Number   `json:"player,omitempty"`
	Set    Number   `json:"set,omitempty"`
	Hollow *Cut     `json:"hollow,omitempty"`
	More   bool     `json:"more,omitempty"`  // part of the grind before
	Again  bool     `json:"again,omitempty"` // a person said that it is one more
}

// Reading is one measurement of one runner.
type Reading struct {
	Reference Reference            `json:"reference"`
	Toe       *geometry.Millimetre `json:"toe_mm,omitempty"`
	Middle    *geometry.Millimetre `json:"middle_mm"`
	Heel      *geometry.Millimetre `json:"heel_mm,omitempty"`
	AsRead    bool                 `json:"as_read,omitempty"` // kept although it looks like a slip
}

func (r *Runner) grind(e *Event, b *Ground) {
	for _, passes := range b.Each {
		if passes.Runner == r.Number {
			r.Works.add(e, Work{b.Work, passes.Passes, b.Player, b.Set, b.Hollow, b.More, b.Again})
		}
	}
}

func (r *Runner) measure(e *Event, b *Measured) {
	for _, height := range b.Heights {
		if height.Runner == r.Number {
			r.Readings.add(e, Reading{b.Reference, height.Toe, height.Middle, height.Heel, height.AsRead})
		}
	}
}

// Wear is what the record adds up to for one runner.
type Wear struct {
	Grinds        int // grinds and new hollows
	Passes        int // the known ones, of all works but honing
	UnknownWorks  int // works of which the passes are unknown
	HeightNew     *geometry.Millimetre
	HeightFinal   *geometry.Millimetre // the last height of a removed runner
	HeightLast    *geometry.Millimetre
	LastReference Reference
}

// WearAt adds up a runner's wear until an instant.
func (r *Runner) WearAt(at time.Time) Wear {
	wear := r.earlierWear(at)
	for _, entry := range r.Works.Until(at) {
		wear.add(entry.Value)
	}
	if last := r.LastReading(at); last != nil {
		wear.HeightLast, wear.LastReference = last.Middle, last.Reference
	}
	if r.StateAt(at) == Removed {
		wear.HeightFinal = wear.HeightLast
	}
	return wear
}

// add counts a work; honing takes no steel that a caliper shows.
func (w *Wear) add(work Work) {
	if work.Kind == WorkHone {
		return
	}
	if (work.Kind == WorkGrind || work.Kind == WorkNewHollow) && !work.More {
		w.Grinds++
	}
	if work.Passes == nil {
		w.UnknownWorks++
		return
	}
	w.Passes += *work.Passes
}

// LastReading is the latest measurement until an instant, or nil.
func (r *Runner) LastReading(at time.Time) *Reading {
	if i := r.Readings.at(at); i >= 0 {
		return &r.Readings[i].Value
	}
	return nil
}

// GroundElsewhere tells whether steel was taken off the runner while it was in another set.
func (r *Runner) GroundElsewhere(set Number, at time.Time) bool {
	return slices.ContainsFunc(r.Works.Until(at), func(work Dated[Work]) bool {
		return work.Value.Kind != WorkHone && work.Value.Set != 0 && work.Value.Set != set
	})
}

// heightNew is the height after profiling and the first grind, where one was taken
// before the second grind and nobody doubted it; else the height at stock-in. Common
// practice, no source.
func (r *Runner) heightNew(at time.Time) *geometry.Millimetre {
	grinds := r.grindTimes(at)
	if len(grinds) == 0 {
		return r.Height
	}
	for _, reading := range r.Readings.Until(at) {
		late := len(grinds) > 1 && !reading.When.Start.Before(grinds[1])
		if reading.Value.Middle != nil && !reading.Value.AsRead && !reading.When.Start.Before(grinds[0]) && !late {
			return reading.Value.Middle
		}
	}
	return r.Height
}

func (r *Runner) grindTimes(at time.Time) []time.Time {
	var times []time.Time
	for _, entry := range r.Works.Until(at) {
		if (entry.Value.Kind == WorkGrind || entry.Value.Kind == WorkNewHollow) && !entry.Value.More {
			times = append(times, entry.When.Start)
		}
	}
	return times
}

const (
	// doubleScan is how close two grinds of one set must be to look like one scanned twice.
	doubleScan = 60 * time.Second
	// sameGrind is how close two stations' grinds of one set must be to look like one work
	// logged twice; common practice, no source: a grind takes two to four minutes.
	sameGrind = 10 * time.Minute
)

// slipFlags finds heights that look like a slip and were kept as read.
func (r *Runner) slipFlags() []Flag {
	var flags []Flag
	for i, reading := range r.Readings {
		if reading.Value.AsRead {
			flags = append(flags, r.conflict(r.Number, Key{}, reading.Event, "a height was kept as read although it looks like a slip: "+r.slipRemedy(i))...)
		}
	}
	return flags
}

// slipRemedy is what to do about a height that looks like a slip; what was measured again
// is not to be measured once more.
func (r *Runner) slipRemedy(slip int) string {
	of := r.Readings[slip]
	for _, later := range r.Readings[slip+1:] {
		if later.Value.Reference == of.Value.Reference && later.Value.Middle != nil && !later.Value.AsRead {
			return fmt.Sprintf("measured again since; steeltally undo %s, with --both-right if it is right", of.Event)
		}
	}
	return "measure again"
}

// workFlags finds works that look like one work logged twice.
func (r *Runner) workFlags() []Flag {
	var flags []Flag
	latest := map[WorkKind]Dated[Work]{}
	for _, after := range r.Works {
		if !after.When.Exact() {
			continue
		}
		before, found := latest[after.Value.Kind]
		latest[after.Value.Kind] = after
		if !found || after.Value.More {
			continue
		}
		gap := after.When.Start.Sub(before.When.Start)
		switch {
		case before.Event.Writer != after.Event.Writer && gap < sameGrind:
			flags = append(flags, r.conflict(r.Number, before.Event, after.Event, "two stations, or two copies of the book, logged a grind within ten minutes")...)
		case gap < doubleScan && !saidAgain(before, after):
			what := fmt.Sprintf("two grinds %d s apart: scanned twice?", int(gap.Seconds()))
			flags = append(flags, r.conflict(r.Number, before.Event, after.Event, what)...)
		}
	}
	return flags
}

// saidAgain tells whether of two works of one writer the one that was noted later is one
// more, as a person said.
func saidAgain(a, b Dated[Work]) bool {
	if a.Event.Sequence > b.Event.Sequence {
		a, b = b, a
	}
	return a.Event.Writer == b.Event.Writer && b.Value.Again
}

// TwiceWithin tells whether a work on the same steel is recorded within 60 s of a time.
func TwiceWithin(v View, body *Ground, when When) bool {
	if !when.Exact() {
		return false
	}
	for _, passes := range body.Each {
		runner, ok := v.Entity(RefOf(passes.Runner)).(*Runner)
		if !ok {
			continue
		}
		for _, work := range runner.Works {
			gap := work.When.Start.Sub(when.Start).Abs()
			if work.When.Exact() && work.Value.Kind == body.Work && gap < doubleScan {
				return true
			}
		}
	}
	return false
}
