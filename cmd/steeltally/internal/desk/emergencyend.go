package desk

import (
	"fmt"
	"time"

	"steeltally/inventory"
)

// EndEmergency notes how a player got back on the ice. Without a name it is the only
// one that waits for an answer.
func (d *Desk) EndEmergency(who string, deed inventory.EndEmergency) (Done, error) {
	return d.act(func(v inventory.View, m inventory.Moment) (_ inventory.Deed, err error) {
		deed.Player, err = crisisPlayer(v, who, d.Instant())
		return deed, err
	})
}

// CloseEmergency notes that what was mended for the moment is mended for good.
func (d *Desk) CloseEmergency(who, note string) (Done, error) {
	return d.act(func(v inventory.View, m inventory.Moment) (inventory.Deed, error) {
		n, err := crisisPlayer(v, who, d.Instant())
		return inventory.CloseEmergency{Player: n, Note: note}, err
	})
}

// crisisPlayer is the player who was named, or the only one with an open emergency.
func crisisPlayer(v inventory.View, who string, at time.Time) (inventory.Number, error) {
	if who != "" {
		return resolvePlayer(v, who, at)
	}
	var open []inventory.Number
	for _, member := range inventory.RosterOf(v).Members {
		player, err := inventory.PlayerOf(v, member.Player)
		if err == nil && len(player.OpenCrises(at)) > 0 {
			open = append(open, player.Number)
		}
	}
	switch len(open) {
	case 0:
		return 0, &inventory.Refusal{Reason: "no emergency is open", Hint: "steeltally emergency PLAYER --side right begins one"}
	case 1:
		return open[0], nil
	}
	return 0, &inventory.Refusal{Reason: fmt.Sprintf("%d players have an open emergency", len(open)), Hint: "say whose; steeltally work lists them"}
}
