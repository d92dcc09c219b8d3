package inventory

import (
	"fmt"
	"slices"
	"time"
)

// CountTrunks is one scan a trunk, going out or coming back.
type CountTrunks struct {
	Trip   string
	Back   bool
	Trunks []Number
}

// Decide records what was there, and names what was not, and what never was on the trip.
func (d CountTrunks) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	body := &Loaded{Trip: trip.Name, Leg: legOut, Trunks: distinct(slices.Clone(d.Trunks))}
	if d.Back {
		body.Leg = legBack
	}
	if len(body.Trunks) == 0 {
		return out, badValue("scan the trunks", "no trunk was scanned")
	}
	for _, n := range body.Trunks {
		if _, err := FindContainer(v, n); err != nil {
			return out, err
		}
	}
	for _, n := range TrunksNotHere(trip, d.Back, body.Trunks, m.at()) {
		out.tell("look for it before the bus leaves", fmt.Sprintf("%s is not here", ContainerName(v, n)))
	}
	if d.Back {
		for _, n := range neverOn(trip, body.Trunks, m.at()) {
			out.tell("if it is another trip's: steeltally undo", fmt.Sprintf("%s never was on this trip", ContainerName(v, n)))
		}
	}
	out.record(m.Happened, body)
	return out, nil
}

// TrunksNotHere lists the trunks that a count should have found and did not: on the way
// out those that were packed, on the way back those that were taken along. What an
// earlier count of the same leg found is here.
func TrunksNotHere(trip *Trip, back bool, here []Number, at time.Time) []Number {
	expected, leg := trip.Trunks(), legOut
	if back {
		leg = legBack
		if out := trip.Counted(legOut, at); len(out) > 0 {
			expected = out
		}
	}
	found := append(trip.Counted(leg, at), here...)
	return slices.DeleteFunc(slices.Clone(expected), func(n Number) bool { return slices.Contains(found, n) })
}

// neverOn lists the trunks of a count that nothing was packed into and that were not
// counted out.
func neverOn(trip *Trip, here []Number, at time.Time) []Number {
	on := append(trip.Trunks(), trip.Counted(legOut, at)...)
	return slices.DeleteFunc(slices.Clone(here), func(n Number) bool { return slices.Contains(on, n) })
}

// ContainerName is what a trunk or bin is called.
func ContainerName(v View, n Number) string {
	if container, ok := v.Entity(RefOf(n)).(*Container); ok && container.Name != "" {
		return container.Name
	}
	return n.Short()
}
