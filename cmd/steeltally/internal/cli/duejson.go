package cli

import (
	"math"
	"slices"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// dueTold is what is due, for programs.
type dueTold struct {
	At      time.Time          `json:"at"`
	Checked int                `json:"forecasts_checked"`
	Held    int                `json:"forecasts_held"`
	Notices []inventory.Notice `json:"notices,omitempty"`
	Others  []any              `json:"others"`
	Players []any              `json:"players"` // dueSet, and unworked
	Until   day                `json:"schedule_until"`
	Aside   []desk.UnsafeAside `json:"unsafe_aside,omitempty"`
}

// dueSet is a set that is on.
type dueSet struct {
	desk.Due
	Dates   []day       `json:"dates"`
	Measure *dueMeasure `json:"measure,omitempty"`
	Passes  []float64   `json:"passes_left"`
	Ready   []readySet  `json:"ready_sets"`
	Refusal *dueRefusal `json:"refusal,omitempty"`
	Sides   []dueSide   `json:"sides"`
}

type dueMeasure struct {
	InPasses float64 `json:"in_passes"`
	On       day     `json:"on"`
}

type dueRefusal struct {
	Answer string `json:"answer"`
	Asked  day    `json:"asked_on"`
	Review day    `json:"review_on"`
}

// dueSide is one runner of a set; what nobody can say is left out.
type dueSide struct {
	CannotSay string               `json:"cannot_say,omitempty"`
	Ends      []string             `json:"ends_low"`
	Last      *geometry.Millimetre `json:"height_last_mm,omitempty"`
	Doubts    []heightInDoubt      `json:"heights_in_doubt"`
	Loss      float64              `json:"loss_mm_per_pass,omitempty"`
	Measured  day                  `json:"measured_on,omitzero"`
	Left      *float64             `json:"passes_left,omitempty"`
	Reference inventory.Reference  `json:"reference"`
	Runner    inventory.Number     `json:"runner"`
	desk.PieceLine
}

type heightInDoubt struct {
	Height geometry.Millimetre `json:"height_mm"`
	Again  bool                `json:"measure_again"`
	On     day                 `json:"on"`
}

type readySet struct {
	desk.PieceLine
	Ground bool   `json:"ground"`
	Set    string `json:"set"` // letter
}

// dueTeller tells what is due, with how each piece stands.
type dueTeller struct {
	zone   *time.Location
	pieces map[inventory.Number]desk.PieceLine
}

func dueObject(d *desk.Desk, list desk.DueList) (dueTold, error) {
	var numbers []inventory.Number
	for _, due := range slices.Concat(list.Players, list.Others) {
		for _, side := range due.Sides {
			numbers = append(numbers, side.Runner)
		}
		for _, set := range due.Ready {
			numbers = append(numbers, set.Set)
		}
	}
	pieces, err := d.Pieces(numbers)
	t := dueTeller{d.Zone(), pieces}
	players := append(t.sets(list.Players), unworked(list.Unworked)...)
	return dueTold{list.At, list.Checked, list.Held, list.Notices, t.sets(list.Others), players, day{list.Until}, list.Aside.Entries}, err
}

func (t dueTeller) sets(list []desk.Due) []any {
	sets := []any{}
	for _, due := range list {
		sets = append(sets, t.set(due))
	}
	return sets
}

func (t dueTeller) set(due desk.Due) dueSet {
	set := dueSet{Due: due, Ready: t.ready(due), Sides: t.sides(due)}
	if left := due.Passes; left != nil {
		set.Passes = []float64{tenth(left.Low), tenth(left.Middle), tenth(left.High)}
		set.Measure = &dueMeasure{tenth(due.Measure.InPasses), day{due.Measure.On}}
	}
	if dates := due.Dates; dates != nil {
		set.Dates = []day{{dates.Low}, {dates.Middle}, {dates.High}}
	}
	if no := due.Refusal; no != nil {
		set.Refusal = &dueRefusal{no.Value.Answer, dayOf(no.When, t.zone), dayOf(no.Value.Review, t.zone)}
	}
	return set
}

func (t dueTeller) sides(due desk.Due) []dueSide {
	sides := []dueSide{}
	for _, of := range due.Sides {
		side := dueSide{PieceLine: t.pieces[of.Runner], Runner: of.Runner, Reference: of.Reference, Ends: of.Ends, CannotSay: of.CannotSay}
		side.Height = of.Now
		if of.Last != nil {
			side.Last, side.Measured = &of.Last.Height, dayOf(of.Last.When, t.zone)
		}
		if of.Loss != 0 {
			left := tenth(of.Left)
			side.Loss, side.Left = of.Loss, &left
		}
		for _, doubt := range of.Doubts {
			side.Doubts = append(side.Doubts, heightInDoubt{doubt.Height, doubt.Again, dayOf(doubt.When, t.zone)})
		}
		sides = append(sides, side)
	}
	return sides
}

func (t dueTeller) ready(due desk.Due) []readySet {
	sets := []readySet{}
	for _, set := range due.Ready {
		sets = append(sets, readySet{t.pieces[set.Set], set.Ground, set.Letter})
	}
	return sets
}

// tenth rounds passes: more digits would pretend to know.
func tenth(passes float64) float64 { return math.Round(10*passes) / 10 }
