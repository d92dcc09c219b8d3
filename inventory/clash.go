package inventory

import (
	"slices"
	"time"
)

// clash is two entries of the record that cannot both be right. Before is zero where
// what After stands on is missing.
type clash struct {
	Before, After Key
	What          string
}

// clashes lists the entries of a line that do not follow from those before them. Say
// tells why one does not, or nothing; before the first stands the zero value.
func (line Timeline[T]) clashes(say func(before, after T) string) []clash {
	var clashes []clash
	var before Dated[T]
	for _, after := range line {
		if what := say(before.Value, after.Value); what != "" {
			clashes = append(clashes, clash{before.Event, after.Event, what})
		}
		before = after
	}
	return clashes
}

// Contradictions says what in a state can't all be right.
func Contradictions(state Entity) []string {
	var what []string
	if clashing, ok := state.(interface{ clashes() []clash }); ok {
		for _, c := range clashing.clashes() {
			what = append(what, c.What)
		}
	}
	return what
}

// Without is the line without what some events said.
func (line Timeline[T]) Without(going []Key) Timeline[T] {
	return slices.DeleteFunc(slices.Clone(line), func(entry Dated[T]) bool { return slices.Contains(going, entry.Event) })
}

// hadAt tells whether a line had a value at an instant, or got or lost it just then.
func hadAt[T comparable](line Timeline[T], value T, t time.Time) bool {
	for _, entry := range slices.Backward(line.Until(t)) {
		if entry.Value == value {
			return true
		}
		if entry.When.Start.Before(t) {
			return false
		}
	}
	var none T
	return value == none // what it was before the first entry
}

// flagClashes flags what a person has not settled yet.
func (m *Marks) flagClashes(about Number, clashes []clash) []Flag {
	var flags []Flag
	for _, c := range clashes {
		flags = append(flags, m.conflict(about, c.Before, c.After, c.What)...)
	}
	return flags
}
