package inventory

import "time"

// Schedule is the games and practices of one month.
type Schedule struct {
	Sessions Timeline[Session] `json:"sessions"`
}

// Apply folds one event.
func (s *Schedule) Apply(e *Event) {
	if b, ok := e.Body.(*Session); ok {
		s.Sessions.add(e, *b)
	}
}

// lookBack is how many months back a last game is looked for: a summer is shorter.
const lookBack = 8

// LastGame is the latest game that had started at an instant, within eight months.
func LastGame(v View, at time.Time) (Dated[Session], bool) {
	month := at.UTC()
	for range lookBack {
		if schedule, ok := v.Entity(ScheduleRef(month)).(*Schedule); ok {
			sessions := schedule.Sessions.Until(at)
			for i := len(sessions) - 1; i >= 0; i-- {
				if sessions[i].Value.Game {
					return sessions[i], true
				}
			}
		}
		month = time.Date(month.Year(), month.Month()-1, 1, 0, 0, 0, 0, time.UTC)
	}
	return Dated[Session]{}, false
}
