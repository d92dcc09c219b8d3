package inventory

import (
	"slices"
	"sort"
	"time"
)

// Dated is a value that holds from a time on, or that was so at a time.
type Dated[T any] struct {
	When  When `json:"when"`
	Event Key  `json:"event"`
	Value T    `json:"value"`
}

// Timeline is a list of dated values in the order in which they happened; of two
// that happened together the later one in fold order stands behind.
type Timeline[T any] []Dated[T]

// add puts a value where it belongs in time.
func (line *Timeline[T]) add(e *Event, value T) {
	entry := Dated[T]{e.Happened, e.Key, value}
	at := len(*line)
	for at > 0 && (*line)[at-1].When.Start.After(entry.When.Start) {
		at--
	}
	*line = slices.Insert(*line, at, entry)
}

// addWhere puts a value where it belongs in time and, among what happened at the same
// instant, behind the last entry that it follows: a correction notes an older entry
// anew, in the midst of what is there. Follows tells whether a value can come after
// another; the zero value stands before the first.
func (line *Timeline[T]) addWhere(e *Event, value T, follows func(before, after T) bool) {
	entry := Dated[T]{e.Happened, e.Key, value}
	least := len(line.Before(e.Happened))
	most := sort.Search(len(*line), func(i int) bool { return (*line)[i].When.Start.After(entry.When.Start) })
	best, second := -1, most
	for at := least; at <= most; at++ {
		var before T
		if at > 0 {
			before = (*line)[at-1].Value
		}
		if !follows(before, value) {
			continue
		}
		second = at
		if at == len(*line) || follows(value, (*line)[at].Value) {
			best = at
		}
	}
	if best < 0 {
		best = second
	}
	*line = slices.Insert(*line, best, entry)
}

// at is the index of the entry that holds at an instant, or -1.
func (line Timeline[T]) at(t time.Time) int {
	for i := len(line) - 1; i >= 0; i-- {
		if !line[i].When.After(t) {
			return i
		}
	}
	return -1
}

// after is when a value that is meant came first after an instant.
func (line Timeline[T]) after(t time.Time, meant func(T) bool) (When, bool) {
	for _, entry := range line[line.at(t)+1:] {
		if meant(entry.Value) {
			return entry.When, true
		}
	}
	return When{}, false
}

// At is the value that holds at an instant, and whether there is one.
func (line Timeline[T]) At(t time.Time) (value T, ok bool) {
	if i := line.at(t); i >= 0 {
		return line[i].Value, true
	}
	return value, false
}

// Before is the part of the line that happened before the start of a time.
func (line Timeline[T]) Before(w When) Timeline[T] {
	return line[:sort.Search(len(line), func(i int) bool { return !line[i].When.Start.Before(w.Start) })]
}

// Until is the part of the line that had happened at an instant.
func (line Timeline[T]) Until(t time.Time) Timeline[T] { return line[:line.at(t)+1] }

// latestEntry is the last entry of a line.
func latestEntry[T any](line Timeline[T]) (last Dated[T], ok bool) {
	if len(line) == 0 {
		return last, false
	}
	return line[len(line)-1], true
}
