package deeds

import "steeltally/inventory"

// AddSession puts a game or a practice in the schedule; it may be still to come.
type AddSession struct {
	Start    inventory.When
	Game     bool
	Opponent string
	Away     bool
	Note     string
}

// Decide refuses a game without a time of day and a second one at the same time.
func (d AddSession) Decide(v inventory.View, _ Moment) (Outcome, error) {
	var out Outcome
	if !d.Start.Exact() {
		return out, inventory.RefuseValue("write it as 2025-11-04T19:00", "a game or practice needs its day and time")
	}
	if d.Game {
		if err := checkName("the opponent's name", d.Opponent); err != nil {
			return out, err
		}
	}
	month := inventory.ScheduleRef(d.Start.Start)
	if schedule, ok := v.Entity(month).(*inventory.Schedule); ok {
		for _, session := range schedule.Sessions {
			if session.When.Start.Equal(d.Start.Start) {
				return out, inventory.Refuse("undo that one first if it moved", "the schedule has a session at that time")
			}
		}
	}
	out.record(d.Start, &inventory.Session{Game: d.Game, Opponent: d.Opponent, Away: d.Away, Note: d.Note, Month: month})
	return out, nil
}
