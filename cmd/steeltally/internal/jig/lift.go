package jig

import (
	"errors"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Lifting is DO NOT SKATE about to be lifted from pieces: a person says that somebody
// looked, and then names each piece once more.
type Lifting struct {
	Pieces  []inventory.Number `json:"pieces"`
	Looked  bool               `json:"looked,omitempty"`  // somebody did, as was said
	Sure    []inventory.Number `json:"sure,omitempty"`    // those that were named
	Inquiry *Inquiry           `json:"inquiry,omitempty"` // about an emergency
	Piece   inventory.Number   `json:"piece,omitzero"`    // else what was looked at
}

// LiftQuestion asks first whether somebody looked, and then for the next piece's number.
func LiftQuestion(l Lifting) Question {
	if !l.Looked {
		return Question{Sort: askLook, Text: "DO NOT SKATE on " + joinShort(l.Pieces) + ": did somebody look, and is it sound? (y/n)", Lift: &l}
	}
	return Question{Sort: askSound, Text: "to lift DO NOT SKATE scan " + l.next().Short() + ", or type its number", Lift: &l}
}

func joinShort(pieces []inventory.Number) string {
	text := ""
	for i, short := range shortOf(pieces) {
		if i > 0 {
			text += " and "
		}
		text += short
	}
	return text
}

// next is the first piece that was not named once more; zero is none.
func (l Lifting) next() inventory.Number {
	for _, n := range l.Pieces {
		if !slices.Contains(l.Sure, n) {
			return n
		}
	}
	return 0
}

// Answer takes an answer, and tells whether it goes on. The first one is yes, the others
// are the numbers of the pieces.
func (l Lifting) Answer(text string) (Lifting, bool) {
	if !l.Looked {
		l.Looked = true
		return l, IsYes(text)
	}
	n, err := inventory.ScannedNumber(text)
	l.Sure = append(slices.Clone(l.Sure), n)
	return l, err == nil && slices.Contains(l.Pieces, n)
}

// Named tells whether every piece was named.
func (l Lifting) Named() bool { return l.Looked && l.next() == 0 }

// asksToLift asks about what an action would lift, and tells whether it does.
func (j *Jig) asksToLift(err error, l Lifting) bool {
	lift := new(deeds.LiftError)
	if !errors.As(err, &lift) || !j.MayAsk {
		return false
	}
	l.Pieces = lift.Pieces
	j.ask(LiftQuestion(l))
	return true
}

// answerLift goes on with lifting, or leaves what is marked as it is: an emergency ends all
// the same.
func (j *Jig) answerLift(q Question, text string) (bool, error) {
	l, yes := q.Lift.Answer(text)
	switch {
	case !yes:
		j.say("DO NOT SKATE stays on " + joinShort(l.Pieces))
		if isScan(text) || l.Inquiry == nil {
			return text == "" || isNo(text), nil
		}
		l.Inquiry.Deed.Broke = ""
		return true, j.end(*l.Inquiry)
	case !l.Named():
		j.ask(LiftQuestion(l))
		return true, nil
	case l.Inquiry == nil:
		return true, j.done(j.Desk.Inspect(l.Piece.String(), deeds.Inspect{Sound: true, Sure: l.Sure}))
	}
	l.Inquiry.Deed.Sure = l.Sure
	return true, j.end(*l.Inquiry)
}

// end records how an emergency ended.
func (j *Jig) end(inquiry Inquiry) error {
	who := ""
	if inquiry.Deed.Player != 0 {
		who = inquiry.Deed.Player.String()
	}
	done, err := j.Desk.EndEmergency(who, inquiry.Deed)
	if j.asksToLift(err, Lifting{Inquiry: &inquiry}) {
		return nil
	}
	if err != nil {
		return err
	}
	j.State.Crisis = nil
	j.reply.Removed = append(j.reply.Removed, done.Broken()...)
	return j.done(done, nil)
}

// lookedAt notes that a piece was looked at and is sound.
func (j *Jig) lookedAt(piece inventory.Number) error {
	done, err := j.Desk.Inspect(piece.String(), deeds.Inspect{Sound: true})
	if j.asksToLift(err, Lifting{Piece: piece}) {
		return nil
	}
	return j.done(done, err)
}
