package deeds

import (
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// NoteTry is a player's word on a pair that he tried.
type NoteTry struct {
	Pair     inventory.Number
	Declined bool
	Note     string
}

// Decide records it; nobody tries a pair with something broken on it.
func (d NoteTry) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	pair, err := inventory.FindPair(v, d.Pair)
	if err != nil {
		return out, err
	}
	if n := standing.UnsafePart(v, pair.Number, m.at()); n != 0 {
		return out, inventory.Refuse("take it off first; steeltally history "+n.Short()+" shows what is wrong", "%s is unsafe: do not skate on it", n.Short())
	}
	out.record(m.Happened, &inventory.Tried{Pair: d.Pair, Player: pair.Player, Declined: d.Declined, Note: d.Note})
	return out, nil
}

// NoteSkated is a practice or a game on a pair that is not the first.
type NoteSkated struct {
	Pair inventory.Number
	Game bool
}

// Decide records it; the first pair is skated every day and needs no entry.
func (d NoteSkated) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	pair, err := inventory.FindPair(v, d.Pair)
	if err != nil {
		return out, err
	}
	if pair.Role(m.at()) == inventory.RoleFirst {
		return out, inventory.Refuse("say it of a spare or third pair; the first pair is skated every day", "%s is the first pair", d.Pair.Short())
	}
	if n := standing.UnsafePart(v, pair.Number, m.at()); n != 0 {
		out.tell("take it off now", n.Short()+" is unsafe: DO NOT SKATE")
	}
	out.record(m.Happened, &inventory.Skated{Pair: d.Pair, Player: pair.Player, Set: pair.SetAt(m.at()), Game: d.Game})
	return out, nil
}

// NotePitch is how a pair's holders are pitched.
type NotePitch struct {
	Pair  inventory.Number
	Pitch geometry.Millimetre
}

// Decide records it within what a holder allows.
func (d NotePitch) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if _, err := inventory.FindPair(v, d.Pair); err != nil {
		return out, err
	}
	if err := checkPitch(d.Pitch); err != nil {
		return out, err
	}
	out.record(m.Happened, &inventory.Pitched{Pair: d.Pair, Pitch: d.Pitch})
	return out, nil
}

func checkPitch(pitch geometry.Millimetre) error {
	if pitch > mostPitch || pitch < -mostPitch {
		return inventory.RefuseValue("pitch is heel minus toe in mm: 0 is neutral, above leans forward", "a pitch of %s is no holder's", pitch)
	}
	return nil
}
