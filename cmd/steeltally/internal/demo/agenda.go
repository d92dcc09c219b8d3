package demo

import (
	"container/heap"
	"time"
)

// agenda is what is going to happen, earliest first; of what happens together, the
// first planned comes first.
type agenda struct {
	tasks   tasks
	planned int
}

type task struct {
	at    time.Time
	order int
	run   func()
}

// add plans something.
func (a *agenda) add(at time.Time, run func()) {
	heap.Push(&a.tasks, task{at, a.planned, run})
	a.planned++
}

// next takes the earliest task that begins before a time.
func (a *agenda) next(before time.Time) (task, bool) {
	if len(a.tasks) == 0 || !a.tasks[0].at.Before(before) {
		return task{}, false
	}
	return heap.Pop(&a.tasks).(task), true
}

type tasks []task

func (t tasks) Len() int      { return len(t) }
func (t tasks) Swap(i, j int) { t[i], t[j] = t[j], t[i] }
func (t tasks) Less(i, j int) bool {
	if t[i].at.Equal(t[j].at) {
		return t[i].order < t[j].order
	}
	return t[i].at.Before(t[j].at)
}

// Push and Pop are what container/heap asks for.
func (t *tasks) Push(x any) { *t = append(*t, x.(task)) }

func (t *tasks) Pop() any {
	last := (*t)[len(*t)-1]
	(*t)[len(*t)-1] = task{}
	*t = (*t)[:len(*t)-1]
	return last
}
