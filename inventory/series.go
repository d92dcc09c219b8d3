package inventory

import (
	"time"

	"steeltally/geometry"
)

// Worn is a height of a runner after so many passes of its stretch.
type Worn struct {
	When   When
	Passes int
	Height geometry.Millimetre
	AsRead bool // kept although it looks like a slip
}

// Stretch is a run of readings between which every pass is known.
type Stretch struct {
	New      bool // its passes count from the new runner on
	Readings []Worn
}

// Series is what the record says of one runner's wear on one reference.
type Series struct {
	Reference    Reference
	Stretches    []Stretch // those with readings, and one more while new and not measured
	Since        int       // known passes since the last reading, or since new without one
	SinceUnknown bool      // and others that nobody counted
}

// Readings counts the readings of all stretches.
func (s Series) Readings() int {
	count := 0
	for _, stretch := range s.Stretches {
		count += len(stretch.Readings)
	}
	return count
}

// Last is the last reading, or nil.
func (s Series) Last() *Worn {
	for i := len(s.Stretches) - 1; i >= 0; i-- {
		if readings := s.Stretches[i].Readings; len(readings) > 0 {
			return &readings[len(readings)-1]
		}
	}
	return nil
}

// Series orders a runner's heights at the middle by the passes before them, until an
// instant. Passes that nobody counted end a stretch; the next reading begins another.
// A reading whose time is vague is left out. A work whose time is vague counts at its
// start, but no reading within that time knows the passes before or after it.
func (r *Runner) Series(reference Reference, at time.Time) Series {
	b := seriesBuilder{series: Series{Reference: reference}, fromNew: r.Recorded()}
	works, readings := r.Works.Until(at), r.Readings.Until(at)
	for len(works) > 0 || len(readings) > 0 {
		if len(readings) == 0 || len(works) > 0 && !works[0].When.Start.After(readings[0].When.Start) {
			b.work(works[0])
			works = works[1:]
			continue
		}
		b.read(readings[0])
		readings = readings[1:]
	}
	return b.finished()
}

// seriesBuilder follows works and readings in the order in which they happened.
type seriesBuilder struct {
	series  Series
	passes  int // of the stretch so far
	since   int
	broken  bool // uncounted passes since the last reading
	fromNew bool // every pass since new is known
	vague   time.Time
}

func (b *seriesBuilder) work(work Dated[Work]) {
	if work.Value.Kind == WorkHone {
		return
	}
	if !work.When.Exact() {
		if work.When.End.After(b.vague) {
			b.vague = work.When.End
		}
		b.broken = b.broken || work.When.Unknown()
	}
	if work.Value.Passes == nil {
		b.broken = true
		return
	}
	b.passes += *work.Value.Passes
	b.since += *work.Value.Passes
}

func (b *seriesBuilder) read(reading Dated[Reading]) {
	if reading.Value.Reference != b.series.Reference || reading.Value.Middle == nil || !reading.When.Exact() {
		return
	}
	within := reading.When.Start.Before(b.vague)
	if b.broken || within {
		b.passes, b.fromNew = 0, false
		b.series.Stretches = append(b.series.Stretches, Stretch{})
	} else if len(b.series.Stretches) == 0 {
		b.series.Stretches = append(b.series.Stretches, Stretch{New: b.fromNew})
	}
	last := &b.series.Stretches[len(b.series.Stretches)-1]
	last.Readings = append(last.Readings, Worn{reading.When, b.passes, *reading.Value.Middle, reading.Value.AsRead})
	b.since, b.broken = 0, within
}

func (b *seriesBuilder) finished() Series {
	if len(b.series.Stretches) == 0 && b.fromNew {
		b.series.Stretches = []Stretch{{New: true}}
	}
	b.series.Since, b.series.SinceUnknown = b.since, b.broken
	return b.series
}
