package deeds

import (
	"steeltally/inventory/standing"
)

import "steeltally/inventory"

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
		return out, inventory.Refuse("steeltally in puts a set on", "no set is on %s's %s pair", player.Name, pair.Role(m.at()))
	}
	if d.Review.Unknown() || !d.Review.After(m.at()) {
		return out, inventory.RefuseValue("such as --until 2025-12-10", "ask again on a day that is still to come")
	}
	for _, n := range inventory.PiecesOn(pair, m.at()) {
		if !standing.Skateable(v, m.at(), n) {
			return out, inventory.Refuse("take it off now: steeltally out "+n.Short(), "%s is unsafe: it comes off, whatever the player says", n.Short())
		}
	}
	body := &inventory.Refused{Player: player.Number, Pair: pair.Number, Set: set, Answer: d.Answer, Review: d.Review}
	if body.Answer == "" {
		body.Answer = "no"
	}
	out.record(m.Happened, body)
	return out, nil
}
