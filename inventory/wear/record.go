package wear

import (
	"fmt"
	"slices"

	"steeltally/geometry"
)

// Stretch is a run of a runner's readings between which every pass is known. A
// runner's life is one stretch, or several where passes were not counted.
type Stretch struct {
	New      bool // it begins with the new runner, and its passes count from there
	Readings []Reading
}

// Runner is one runner's readings, all in one reference.
type Runner struct {
	Kind      int // which of the record's kinds
	Stretches []Stretch
}

// Kind is a model measured in one reference: what runners of it have in common.
type Kind struct {
	Nominal   geometry.Millimetre // height at stock-in; 0: not known, a runner begins at its first reading
	Reference int                 // kinds of one number share the caliper's error: 0 loose, 1 fitted, say
}

// Pair is a left and a right runner worn together; one without stretches is not
// known.
type Pair struct {
	Left, Right Runner
	Change      geometry.Millimetre // at which its player changes
	In, Out     float64             // days, from any common start, on which it went in and out
}

// Record is what a book holds of the steel of one role: goalkeepers have a
// record of their own.
type Record struct {
	Kinds   []Kind
	Players [][]Pair // each player's earlier pairs
	Present []Pair   // pairs in use: they tell of the caliper only
}

func (p Pair) sides() [2]Runner { return [2]Runner{p.Left, p.Right} }

// Tells is whether a runner's readings show any loss.
func (r Runner) Tells() bool {
	for _, s := range r.Stretches {
		if len(s.Readings) > 1 || s.New && len(s.Readings) > 0 {
			return true
		}
	}
	return false
}

// runners lists the known ones of the earlier pairs, and of those in use where asked.
func (r Record) runners(present bool) []Runner {
	pairs := slices.Concat(r.Players...)
	if present {
		pairs = append(pairs, r.Present...)
	}
	var list []Runner
	for _, p := range pairs {
		for _, runner := range p.sides() {
			if runner.known() {
				list = append(list, runner)
			}
		}
	}
	return list
}

// known is whether a runner is there at all: one that is not has no kind either.
func (r Runner) known() bool { return len(r.Stretches) > 0 }

func (r Record) check() error {
	for _, runner := range r.runners(true) {
		if err := r.checkKind(runner); err != nil {
			return err
		}
	}
	return nil
}

func (r Record) checkKind(runner Runner) error {
	if runner.known() && (runner.Kind < 0 || runner.Kind >= len(r.Kinds)) {
		return fmt.Errorf("runner of kind %d of %d: list its model first", runner.Kind+1, len(r.Kinds))
	}
	return nil
}
