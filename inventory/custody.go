package inventory

import (
	"fmt"
	"slices"
	"time"
)

// CustodyChanged says who has pieces from a time on. Custody is not place: a pair at
// its player's home is the club's, but not at hand.
type CustodyChanged struct {
	Pieces    []Number  `json:"pieces"`
	Custody   Custodian `json:"custody"`             // one of Custodies
	With      string    `json:"with,omitempty"`      // whom, by name
	Reference string    `json:"reference,omitempty"` // of the letter that went along
	Due       When      `json:"due"`                 // back by then
	Note      string    `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*CustodyChanged) Kind() string { return "custody" }

// Touches names the pieces, and the list of those that were away.
func (b *CustodyChanged) Touches() []Ref { return append(numbered(b.Pieces...), AwayRef) }

func (b *CustodyChanged) line(t Teller, _ *Event) string {
	custody := Custody{Custody: b.Custody, With: b.With, Reference: b.Reference}
	return withNote(sayPieces(b.Pieces)+" "+custody.String()+t.due(b.Due), b.Note)
}

// MakerAnswered is what a maker or repairer said about pieces that were sent.
type MakerAnswered struct {
	Pieces   []Number `json:"pieces"`
	Decision Decision `json:"decision"` // one of Decisions
	Due      When     `json:"due"`      // what was promised, by then
	Note     string   `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*MakerAnswered) Kind() string { return "answer" }

// Touches names the pieces, and the list of those that were away.
func (b *MakerAnswered) Touches() []Ref { return append(numbered(b.Pieces...), AwayRef) }

func (b *MakerAnswered) line(t Teller, _ *Event) string {
	return withNote(fmt.Sprintf("answer about %s: %s%s", sayPieces(b.Pieces), b.Decision, t.due(b.Due)), b.Note)
}

func (t Teller) due(due When) string {
	if due.Unknown() {
		return ""
	}
	return ", due " + due.SayDay(ClubOf(t.View).Location())
}

// Custody is who has a piece.
type Custody struct {
	Custody   Custodian `json:"custody"`
	With      string    `json:"with,omitempty"`
	Reference string    `json:"reference,omitempty"`
	Due       When      `json:"due"`
	Decision  Decision  `json:"decision,omitempty"` // what a maker said
}

// Ours tells whether the club has it.
func (c Custody) Ours() bool { return c.Custody == "" || c.Custody == CustodyClub }

// String is who has it in words: "with the maker (Skua Works), reference 12".
func (c Custody) String() string {
	if c.Ours() {
		return "with the club"
	}
	words := c.Custody.Say()
	if c.With != "" {
		words += " (" + c.With + ")"
	}
	if c.Reference != "" {
		words += ", reference " + c.Reference
	}
	return words
}

// answer notes what a maker said of a piece that he has.
func (m *Marks) answer(e *Event, b *MakerAnswered) {
	was, _ := m.Custodies.At(e.Happened.Start)
	was.Decision, was.Due = b.Decision, b.Due
	if b.Decision == DecisionSettled {
		was.Due = When{}
	}
	m.Custodies.add(e, was)
}

// CustodyAt is who has the piece at an instant; the zero Custody is the club.
func (m *Marks) CustodyAt(at time.Time) Custody {
	custody, _ := m.Custodies.At(at)
	return custody
}

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
