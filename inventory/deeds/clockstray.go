package deeds

import (
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// strays is what a player's work went to because a wrong clock looked up what was on.
type strays struct {
	player  inventory.Number
	set     inventory.Number
	entries []string
}

// tellStrays says which work went to steel that was not on when it was truly done: what a
// command means is settled when it is given, by the clock of that moment.
func (d SetClock) tellStrays(v inventory.View, by time.Duration, out *Outcome) {
	moved := d.movedSteel()
	var found []*strays
	for i := range d.Events {
		e := &d.Events[i]
		player, set := workedOn(e)
		on, ok := v.Entity(inventory.RefOf(set)).(*inventory.Set)
		if !ok || moved[set] || e.Happened != inventory.At(e.Noted) || standing.SetState(v, on, e.Noted.Add(by)) == inventory.On {
			continue
		}
		stray := straysOf(&found, player, set)
		stray.entries = append(stray.entries, e.Key.String())
	}
	for _, stray := range found {
		stray.tell(v, out)
	}
}

func straysOf(found *[]*strays, player, set inventory.Number) *strays {
	for _, stray := range *found {
		if stray.player == player && stray.set == set {
			return stray
		}
	}
	*found = append(*found, &strays{player: player, set: set})
	return (*found)[len(*found)-1]
}

func (s *strays) tell(v inventory.View, out *Outcome) {
	who, set := s.player.Short(), s.set.Short()
	if player, err := inventory.PlayerOf(v, s.player); err == nil {
		who = player.Name
	}
	if found, err := inventory.FindSet(v, s.set); err == nil {
		set = found.Letter + " " + set
	}
	out.tell("take them back, and enter them again with --at: steeltally undo "+strings.Join(s.entries, " "),
		fmt.Sprintf("%s: entries that went to set %s, which was not on then: %d", who, set, len(s.entries)))
}

// movedSteel are the sets that went on or came off under the clock: where they were is not
// known before it is set right.
func (d SetClock) movedSteel() map[inventory.Number]bool {
	moved := map[inventory.Number]bool{}
	for i := range d.Events {
		switch b := d.Events[i].Body.(type) {
		case *inventory.PutIn:
			moved[b.Set] = true
		case *inventory.TakenOut:
			moved[b.Set] = true
		case *inventory.Riveted:
			moved[b.Set] = true
		}
	}
	return moved
}

// workedOn is whose steel an entry is about, as far as it was taken for what was on a boot.
func workedOn(e *inventory.Event) (player, set inventory.Number) {
	switch b := e.Body.(type) {
	case *inventory.Ground:
		if b.Pair != 0 {
			return b.Player, b.Set
		}
	case *inventory.Measured:
		if b.Reference == inventory.Fitted {
			return b.Player, b.Set
		}
	}
	return 0, 0
}
