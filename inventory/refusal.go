package inventory

import (
	"errors"
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

// Unworked is a player of whom something could not be worked out. What is told of the
// others stands.
type Unworked struct {
	About   Number // the player, or a piece of his
	Sweater int    // 0: none, or not known
	Name    string
	Cause   error
}

// Unworked says that something of the player could not be worked out.
func (p *Player) Unworked(at time.Time, cause error) Unworked {
	return Unworked{About: p.Number, Sweater: p.Sweater(at), Name: p.Name, Cause: cause}
}

// Whose names the player as people call him: "17 Ansgar Lindqvarn".
func (u Unworked) Whose() string {
	switch {
	case u.Name == "":
		return u.About.Short()
	case u.Sweater == 0:
		return u.Name
	}
	return fmt.Sprintf("%d %s", u.Sweater, u.Name)
}

// Say tells what is missing and why.
func (u Unworked) Say() string { return "could not be worked out: " + u.Cause.Error() }

// Hint is what can be done about it.
func (u Unworked) Hint() string {
	if u.About == 0 {
		return "what else is told stands; steeltally verify looks at the book"
	}
	shown := fmt.Sprintf("steeltally history %s shows what is recorded of it", u.About.Short())
	var refusal *Refusal
	if errors.As(u.Cause, &refusal) && refusal.Hint != "" {
		return refusal.Hint + "; " + shown
	}
	return shown + "; the others' lines stand"
}
