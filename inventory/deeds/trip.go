package deeds

import "steeltally/inventory"

// AddTrip adds a trip, or changes the days of one.
type AddTrip struct {
	Name     string
	From, To inventory.When
}

// Decide checks the days; they are for planning and may be still to come.
func (d AddTrip) Decide(_ inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the trip's name", d.Name); err != nil {
		return out, err
	}
	if d.From.Unknown() || d.To.Unknown() {
		return out, inventory.RefuseValue("steeltally trip add NAME --from 2025-12-03 --to 2025-12-07", "a trip has a day of leaving and a day of coming back")
	}
	if d.To.Start.Before(d.From.Start) {
		return out, inventory.RefuseValue("check both dates", "the trip ends before it begins")
	}
	out.record(m.Happened, &inventory.TripNoted{Trip: d.Name, From: d.From, To: d.To})
	return out, nil
}

// ChangeRoster says of players whether they come along.
type ChangeRoster struct {
	Trip    string
	Players []inventory.Number
	Stay    bool
}

// Decide records it.
func (d ChangeRoster) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := inventory.FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	if len(d.Players) == 0 {
		return out, inventory.RefuseValue("name players by sweater", "no player was named")
	}
	for _, n := range d.Players {
		if _, err := inventory.PlayerOf(v, n); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, &inventory.Travelling{Trip: trip.Name, Players: d.Players, Stay: d.Stay})
	return out, nil
}
