package deeds

import (
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

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
		return out, inventory.Refuse("take it off first", "%s on the %s pair is unsafe: do not skate on it", n.Short(), up)
	}
	for _, step := range steps {
		if pair, err := inventory.PairInRole(v, player, step[0], m.at()); err == nil {
			out.record(m.Happened, &inventory.PairNoted{Pair: pair.Number, Player: d.Player, Role: step[1]})
		}
	}
	if up == inventory.RoleSpare {
		out.tell("steeltally pair add "+player.Typed(m.at())+" --role spare", fmt.Sprintf("%s has no spare pair now", player.Name))
	}
	return out, nil
}
