package inventory

import (
	"slices"
	"time"
)

// Away lists every piece that somebody else had once. Who has it now the piece itself
// says.
type Away struct {
	Pieces []Number `json:"pieces,omitempty"`
}

// Apply folds one event.
func (a *Away) Apply(e *Event) {
	for _, ref := range e.Body.Touches() {
		n := ref.Number()
		if at, found := slices.BinarySearch(a.Pieces, n); n != 0 && !found {
			a.Pieces = slices.Insert(a.Pieces, at, n)
		}
	}
}

// OnceAway lists the pieces that somebody else had once, in order of number.
func OnceAway(v View) []Number {
	if away, ok := v.Entity(AwayRef).(*Away); ok {
		return away.Pieces
	}
	return nil
}

// CameBack is when a piece came back to the club last, and from whom; false where it
// was never away, or still is.
func (m *Marks) CameBack(at time.Time) (when When, from Custody, ok bool) {
	line := m.Custodies.Until(at)
	last := len(line) - 1
	if last < 1 || !line[last].Value.Ours() {
		return When{}, Custody{}, false
	}
	for _, before := range slices.Backward(line[:last]) {
		if !before.Value.Ours() {
			return line[last].When, before.Value, true
		}
		when = before.When
	}
	return When{}, Custody{}, false
}
