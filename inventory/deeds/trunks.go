package deeds

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
)

// CountTrunks is one scan a trunk, going out or coming back.
type CountTrunks struct {
	Trip   string
	Back   bool
	Trunks []inventory.Number
}

// Decide records what was there, and names what was not, and what never was on the trip.
func (d CountTrunks) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := inventory.FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	body := &inventory.Loaded{Trip: trip.Name, Leg: inventory.LegOut, Trunks: inventory.Distinct(slices.Clone(d.Trunks))}
	if d.Back {
		body.Leg = inventory.LegBack
	}
	if len(body.Trunks) == 0 {
		return out, inventory.RefuseValue("scan the trunks", "no trunk was scanned")
	}
	for _, n := range body.Trunks {
		if _, err := inventory.FindContainer(v, n); err != nil {
			return out, err
		}
	}
	for _, n := range inventory.TrunksNotHere(trip, d.Back, body.Trunks, m.at()) {
		out.tell("look for it before the bus leaves", fmt.Sprintf("%s is not here", inventory.ContainerName(v, n)))
	}
	if d.Back {
		for _, n := range neverOn(trip, body.Trunks, m.at()) {
			out.tell("if it is another trip's: steeltally undo", fmt.Sprintf("%s never was on this trip", inventory.ContainerName(v, n)))
		}
	}
	out.record(m.Happened, body)
	return out, nil
}

// neverOn lists the trunks of a count that nothing was packed into and that were not
// counted out.
func neverOn(trip *inventory.Trip, here []inventory.Number, at time.Time) []inventory.Number {
	on := append(trip.Trunks(), trip.Counted(inventory.LegOut, at)...)
	return slices.DeleteFunc(slices.Clone(here), func(n inventory.Number) bool { return slices.Contains(on, n) })
}
