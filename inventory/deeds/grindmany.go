package deeds

import (
	"errors"
	"slices"

	"steeltally/inventory"
)

// GrindMany is one action for several players, each with the usual passes or the same.
type GrindMany struct {
	Players []inventory.Number
	Each    Grind // what is said for all of them
}

// Decide is all of them or none.
func (d GrindMany) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Players) == 0 {
		return out, inventory.RefuseValue("such as steeltally grind 4 7 11", "no player was named")
	}
	for i, player := range d.Players {
		one := d.Each
		one.Player = player
		if !one.More && slices.Contains(d.Players[:i], player) {
			out.tell(twiceHint, twiceText)
		}
		grind, err := one.Decide(v, m)
		if err != nil {
			return Outcome{}, ofOneAmongMany(v, d.Players, player, m, err)
		}
		out.add(grind)
	}
	return out, nil
}

// ofOneAmongMany says whose work was refused, and that nobody's was logged.
func ofOneAmongMany(v inventory.View, players []inventory.Number, n inventory.Number, m Moment, err error) error {
	var refusal *inventory.Refusal
	player, known := v.Entity(inventory.RefOf(n)).(*inventory.Player)
	if len(players) == 1 || !known || !errors.As(err, &refusal) {
		return err
	}
	if later := new(inventory.NotYet); errors.As(err, &later) {
		return err
	}
	return inventory.Refuse("leave "+player.Typed(m.at())+" out, or "+refusal.Hint, "nobody was logged: %s: %s", player.Name, refusal.Reason)
}
