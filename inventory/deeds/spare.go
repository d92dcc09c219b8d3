package deeds

import (
	"fmt"

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
		return out, inventory.Refuse(n.Short()+" is unsafe: do not skate on it", "take it off first; steeltally history "+n.Short()+" shows what is wrong")
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
		return out, inventory.Refuse(d.Pair.Short()+" is the first pair", "say it of a spare or third pair; the first pair is skated every day")
	}
	if n := standing.UnsafePart(v, pair.Number, m.at()); n != 0 {
		out.tell(n.Short()+" is unsafe: DO NOT SKATE", "take it off now")
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
		return inventory.RefuseValue(fmt.Sprintf("a pitch of %s is no holder's", pitch), "pitch is heel minus toe in mm: 0 is neutral, above leans forward")
	}
	return nil
}

// Promote moves a player's pairs up: the third becomes the first, the first the spare,
// and the spare is kept. Without a third the spare becomes the first.
type Promote struct{ Player inventory.Number }

// Decide gives every pair its next role, all at once.
func (d Promote) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	steps := [][2]inventory.Role{{inventory.RoleSpare, inventory.RoleKept}, {inventory.RoleFirst, inventory.RoleSpare}, {inventory.RoleThird, inventory.RoleFirst}}
	if _, err := inventory.PairInRole(v, player, inventory.RoleThird, m.at()); err != nil {
		steps = [][2]inventory.Role{{inventory.RoleFirst, inventory.RoleKept}, {inventory.RoleSpare, inventory.RoleFirst}}
	}
	up := steps[len(steps)-1][0]
	next, err := inventory.PairInRole(v, player, up, m.at())
	if err != nil {
		return out, err
	}
	if n := standing.UnsafePart(v, next.Number, m.at()); n != 0 {
		return out, inventory.Refuse(fmt.Sprintf("%s on the %s pair is unsafe: do not skate on it", n.Short(), up), "take it off first")
	}
	for _, step := range steps {
		if pair, err := inventory.PairInRole(v, player, step[0], m.at()); err == nil {
			out.record(m.Happened, &inventory.PairNoted{Pair: pair.Number, Player: d.Player, Role: step[1]})
		}
	}
	if up == inventory.RoleSpare {
		out.tell(fmt.Sprintf("%s has no spare pair now", player.Name), "steeltally pair add "+player.Typed(m.at())+" --role spare")
	}
	return out, nil
}

// SetRules says when a spare pair counts as ready, for the club or for one player.
type SetRules inventory.RulesNoted

const (
	mostDays                           = 400
	mostSets                           = 10
	mostFixMinutes                     = 600
	mostDifference geometry.Millimetre = 5
	rulesHint                          = "such as --height-within 0.5mm, --tried-within 30, --looked-within 30, --ready-sets 2"
)

// Decide records what was set; the rest stays.
func (d SetRules) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if d.Player != 0 {
		if _, err := inventory.PlayerOf(v, d.Player); err != nil {
			return out, err
		}
	}
	if err := d.check(); err != nil {
		return out, err
	}
	body := inventory.RulesNoted(d)
	out.record(m.Happened, &body)
	return out, nil
}

func (d SetRules) check() error {
	if d.HeightWithin == nil && d.TriedDays == nil && d.LookedDays == nil && d.Sets == nil && len(d.Minutes) == 0 {
		return inventory.RefuseValue("no rule was given", rulesHint)
	}
	if d.HeightWithin != nil && (*d.HeightWithin <= 0 || *d.HeightWithin > mostDifference) {
		return inventory.RefuseValue(fmt.Sprintf("a height difference of %s can't be right", *d.HeightWithin), "half a millimetre is usual")
	}
	for _, limit := range []struct {
		what  string
		value *int
		most  int
	}{{"days since tried", d.TriedDays, mostDays}, {"days since looked at", d.LookedDays, mostDays}, {"ready sets", d.Sets, mostSets}} {
		if limit.value != nil && (*limit.value < 0 || *limit.value > limit.most) {
			return inventory.RefuseValue(fmt.Sprintf("%s: %d; 0 to %d are possible", limit.what, *limit.value, limit.most), "")
		}
	}
	for _, time := range d.Minutes {
		if time.Minutes < 0 || time.Minutes > mostFixMinutes {
			return inventory.RefuseValue(fmt.Sprintf("%d minutes for %s: 0 to %d are possible", time.Minutes, time.Fix, mostFixMinutes), "")
		}
	}
	return nil
}

// RefuseChange is a player's no to a change of steel.
type RefuseChange struct {
	Player inventory.Number
	Pair   inventory.Number // zero: the pair that the player skates on
	Answer string           // empty: "no"
	Review inventory.When
}

// Decide names the set that was on when he was asked. A cracked piece is no matter of
// taste: no answer is taken for it.
func (d RefuseChange) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, pair, err := playerAndPair(v, d.Player, d.Pair, m, &out)
	if err != nil {
		return out, err
	}
	set := pair.SetAt(m.at())
	if set == 0 {
		return out, inventory.Refuse(fmt.Sprintf("no set is on %s's %s pair", player.Name, pair.Role(m.at())), "steeltally in puts a set on")
	}
	if d.Review.Unknown() || !d.Review.After(m.at()) {
		return out, inventory.RefuseValue("ask again on a day that is still to come", "such as --until 2025-12-10")
	}
	for _, n := range inventory.PiecesOn(pair, m.at()) {
		if !standing.Skateable(v, m.at(), n) {
			return out, inventory.Refuse(n.Short()+" is unsafe: it comes off, whatever the player says", "take it off now: steeltally out "+n.Short())
		}
	}
	body := &inventory.Refused{Player: player.Number, Pair: pair.Number, Set: set, Answer: d.Answer, Review: d.Review}
	if body.Answer == "" {
		body.Answer = "no"
	}
	out.record(m.Happened, body)
	return out, nil
}
