package inventory

import "time"

// NotYet refuses what was not so at an instant, and came to be so later: of a vague time
// that reaches so far, what is left of it is meant.
type NotYet struct {
	*Refusal
	Since time.Time
}

func (e *NotYet) Unwrap() error { return e.Refusal }

// notYet makes one; the day from which on it is so is added to its reason.
func notYet(v View, since When, reason, hint string) error {
	return &NotYet{&Refusal{reason + " since " + since.Say(ClubOf(v).Location()), hint}, since.Start}
}

// From is what is left of a vague time after an instant in it, at which something came to
// be so; false where the instant is not in it.
func (w When) From(since time.Time) (When, bool) {
	left := Between(since.Add(time.Second), w.End)
	return left, since.After(w.Start) && left.Start.Before(w.End)
}
