package review

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// Sessions are the starts of the club's sessions, in order.
type Sessions []time.Time

// ReadSessions reads the sessions from an instant until another.
func ReadSessions(v inventory.View, from, until time.Time) Sessions {
	var starts Sessions
	for _, s := range inventory.Sessions(v, from, until) {
		starts = append(starts, s.When.Start)
	}
	return starts
}

// Any tells whether there is a schedule at all.
func (s Sessions) Any() bool { return len(s) > 0 }

// Between counts the sessions that started in [from, until).
func (s Sessions) Between(from, until time.Time) int {
	return max(0, s.before(until)-s.before(from))
}

func (s Sessions) before(t time.Time) int {
	at, _ := slices.BinarySearchFunc(s, t, time.Time.Compare)
	return at
}
