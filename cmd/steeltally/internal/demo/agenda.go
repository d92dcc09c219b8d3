package demo

import (
	"slices"
	"time"
)

// agenda is what is going to happen, earliest first; of what happens together, the
// first planned comes first.
type agenda []task

type task struct {
	at  time.Time
	run func()
}

// add plans something.
func (a *agenda) add(at time.Time, run func()) {
	behind, _ := slices.BinarySearchFunc(*a, at, func(t task, at time.Time) int {
		if t.at.After(at) {
			return 1
		}
		return -1
	})
	*a = slices.Insert(*a, behind, task{at, run})
}

// next takes the earliest task that begins before a time.
func (a *agenda) next(before time.Time) (task, bool) {
	if len(*a) == 0 || !(*a)[0].at.Before(before) {
		return task{}, false
	}
	first := (*a)[0]
	*a = (*a)[1:]
	return first, true
}
