package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// EndEmergency notes how a player got back on the ice, and with what, as typed or
// scanned. Without a name it is the only one that waits for an answer.
func (d *Desk) EndEmergency(who string, deed deeds.EndEmergency, with ...string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		if deed.Player, err = crisisPlayer(v, who, d.Instant()); err != nil {
			return nil, err
		}
		more, err := helped(v, deed.Player, with, d.Instant())
		deed.With = append(slices.Clone(deed.With), more...)
		return deed, err
	})
}

// OpenRescue tells again what gets the player back whose emergency waits for an answer.
func (d *Desk) OpenRescue(who string) (rescue Rescue, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		n, err := crisisPlayer(v, who, at)
		if err != nil {
			return err
		}
		player, err := inventory.PlayerOf(v, n)
		if err != nil {
			return err
		}
		crisis, err := deeds.EndEmergency{}.Crisis(player, at)
		rescue.Player, rescue.Pair, rescue.Side, rescue.Since = n, crisis.Value.Pair, crisis.Value.Side, crisis.When.Start
		return err
	})
	if err != nil {
		return rescue, err
	}
	return d.Rescue(rescue.Player, rescue.Pair, rescue.Side, rescue.Since)
}

// helped is what got a player back on the ice: a set of his by its letter, a pair of
// his by its role, anything by its number.
func helped(v inventory.View, player inventory.Number, texts []string, at time.Time) ([]inventory.Number, error) {
	var numbers []inventory.Number
	for _, text := range texts {
		n, err := pieceOf(v, player, strings.TrimSpace(text), at)
		if err != nil {
			return nil, err
		}
		if !inventory.StateEntered(v, n) {
			return nil, &inventory.Refusal{Reason: n.Short() + " is not in this book", Hint: "scan it again, or leave it out"}
		}
		numbers = append(numbers, n)
	}
	return numbers, nil
}

func pieceOf(v inventory.View, player inventory.Number, text string, at time.Time) (inventory.Number, error) {
	switch {
	case slices.Contains(inventory.Roles(), inventory.Role(text)):
		return pairOf(v, player, text, at)
	case len(text) == 1:
		return setOf(v, player, text)
	}
	return inventory.ScannedNumber(text)
}

// CloseEmergency notes that what was mended for the moment is mended for good.
func (d *Desk) CloseEmergency(who, note string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		n, err := crisisPlayer(v, who, d.Instant())
		return deeds.CloseEmergency{Player: n, Note: note}, err
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
