package inventory

import (
	"cmp"
	"fmt"
	"slices"
)

// Trips is the list of trips.
type Trips struct {
	Trips []TripLine `json:"trips,omitempty"`
}

// TripLine is a trip in the list.
type TripLine struct {
	Name string `json:"name"`
	From When   `json:"from"`
	To   When   `json:"to"`
}

// Apply folds one event.
func (t *Trips) Apply(e *Event) {
	b, ok := e.Body.(*TripNoted)
	if !ok {
		return
	}
	t.Trips = slices.DeleteFunc(t.Trips, func(line TripLine) bool { return TripRef(line.Name) == TripRef(b.Trip) })
	t.Trips = append(t.Trips, TripLine{b.Trip, b.From, b.To})
	slices.SortStableFunc(t.Trips, func(a, b TripLine) int {
		return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.Name, b.Name))
	})
}

// TripList lists the trips by their day of leaving.
func TripList(v View) []TripLine {
	if trips, ok := v.Entity(TripsRef).(*Trips); ok {
		return trips.Trips
	}
	return nil
}

// FindTrip is a trip by its name.
func FindTrip(v View, name string) (*Trip, error) {
	if trip, ok := v.Entity(TripRef(name)).(*Trip); ok && trip.Entered() {
		return trip, nil
	}
	return nil, Refuse(fmt.Sprintf("there is no trip %s", Clip(name)),
		"steeltally trip add "+Quoted(name)+" --from DATE --to DATE adds it; steeltally trip list shows the others")
}
