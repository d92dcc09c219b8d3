package inventory

import (
	"fmt"
	"strings"
	"time"
)

// Refusal says that the record does not allow something, or does not know it, and
// what to do next.
type Refusal struct{ Reason, Hint string }

func (r *Refusal) Error() string { return r.Reason }

// BadValue says that a value cannot be right whatever the record says.
type BadValue struct{ Reason, Hint string }

func (b *BadValue) Error() string { return b.Reason }

// Refuse makes a refusal.
func Refuse(text, hint string) error {
	return &Refusal{text, hint}
}

// RefuseValue makes a bad value.
func RefuseValue(text, hint string) error {
	return &BadValue{text, hint}
}

// Notice tells a person what was noticed; Hint says what to do about it.
type Notice struct {
	Text string `json:"notice"`
	Hint string `json:"hint,omitempty"`
}

// Ambiguous says that a sweater number or a name stands for several players.
type Ambiguous struct {
	Text    string
	Members []Member
}

func (a *Ambiguous) Error() string {
	names := make([]string, len(a.Members))
	for i, m := range a.Members {
		names[i] = fmt.Sprintf("%s %s", m.Player.Short(), m.Name)
	}
	how := "is worn by"
	if ByName(a.Text) {
		how = "can be any of"
	}
	return fmt.Sprintf("%s %s %d players: %s", Clip(a.Text), how, len(a.Members), strings.Join(names, ", "))
}

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
