package inventory

import "time"

// Sessions lists the games and practices that start in [from, until), in order.
func Sessions(v View, from, until time.Time) Timeline[Session] {
	var found Timeline[Session]
	month := time.Date(from.UTC().Year(), from.UTC().Month(), 1, 0, 0, 0, 0, time.UTC)
	for ; month.Before(until); month = month.AddDate(0, 1, 0) {
		schedule, ok := v.Entity(ScheduleRef(month)).(*Schedule)
		if !ok {
			continue
		}
		for _, session := range schedule.Sessions {
			if start := session.When.Start; !start.Before(from) && start.Before(until) {
				found = append(found, session)
			}
		}
	}
	return found
}
