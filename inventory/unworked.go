package inventory

import (
	"errors"
	"fmt"
	"time"
)

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
