package inventory

import "fmt"

// Promote moves a player's pairs up: the third becomes the first, the first the spare,
// and the spare is kept. Without a third the spare becomes the first.
type Promote struct{ Player Number }

// Decide gives every pair its next role, all at once.
func (d Promote) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	steps := [][2]string{{RoleSpare, RoleKept}, {RoleFirst, RoleSpare}, {RoleThird, RoleFirst}}
	if _, err := PairInRole(v, player, RoleThird, m.at()); err != nil {
		steps = [][2]string{{RoleFirst, RoleKept}, {RoleSpare, RoleFirst}}
	}
	up := steps[len(steps)-1][0]
	next, err := PairInRole(v, player, up, m.at())
	if err != nil {
		return out, err
	}
	if n := unsafeOn(v, next, m.at()); n != 0 {
		return out, refuse("take it off first", "%s on the %s pair is unsafe: do not skate on it", n.Short(), up)
	}
	for _, step := range steps {
		if pair, err := PairInRole(v, player, step[0], m.at()); err == nil {
			out.record(m.Happened, &PairNoted{pair.Number, d.Player, step[1]})
		}
	}
	if up == RoleSpare {
		out.tell("steeltally pair add "+sayPlayer(player, m.at())+" --role spare", fmt.Sprintf("%s has no spare pair now", player.Name))
	}
	return out, nil
}
