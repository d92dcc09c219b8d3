package deeds

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"steeltally/inventory"
)

// GrindMany is one action for several players, each with the usual passes or the same.
type GrindMany struct {
	Players []inventory.Number
	Pairs   []inventory.Number // of the players, in their order; zero, or none said: what each skates on
	Each    Grind              // what is said for all of them
	Any     bool               // nobody was named: who can't be logged stops nobody else
}

// Decide is all of them or none. Where nobody was named it is those that can be, if that is
// anybody, and the others are left.
func (d GrindMany) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	var first error
	if len(d.Players) == 0 {
		return out, inventory.RefuseValue("no player was named", "such as steeltally grind 4 7 11")
	}
	if d.Any {
		out.Left = []inventory.Unworked{}
	}
	for i, player := range d.Players {
		grind, err := d.one(v, m, i)
		if err != nil && !d.Any {
			return Outcome{}, ofOneAmongMany(v, d.Players, player, m, err)
		}
		if err != nil {
			first = cmp.Or(first, ofOneAmongMany(v, d.Players, player, m, err))
			out.Left = append(out.Left, left(v, player, m, err))
			continue
		}
		if body, ok := grind.Drafts[0].Body.(*inventory.Ground); ok && !d.Each.More && slices.Contains(d.Players[:i], player) {
			tellTwice(v, body, m, &out)
		}
		out.add(grind)
	}
	if len(out.Drafts) == 0 {
		return Outcome{}, first
	}
	return out, nil
}

// one decides for one player. Of any, one who had nothing on at first, within a vague time,
// is logged for what is left of it; and a fault of the program is his alone.
func (d GrindMany) one(v inventory.View, m Moment, i int) (out Outcome, err error) {
	one := d.Each
	one.Player = d.Players[i]
	if i < len(d.Pairs) {
		one.Pair = d.Pairs[i]
	}
	if !d.Any {
		return one.Decide(v, m)
	}
	err = inventory.Guard(func() (err error) {
		out, err = one.Decide(v, m)
		later := new(inventory.NotYet)
		if errors.As(err, &later) {
			if rest, reaches := m.Happened.From(later.Since); reaches {
				out, err = one.Decide(v, Moment{rest, m.Now})
			}
		}
		return err
	})
	return out, err
}

// left is somebody who could not be logged, and why.
func left(v inventory.View, n inventory.Number, m Moment, why error) inventory.Unworked {
	if player, ok := v.Entity(inventory.RefOf(n)).(*inventory.Player); ok {
		return player.Unworked(m.at(), why)
	}
	return inventory.Unworked{About: n, Cause: why}
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
	return inventory.Refuse(fmt.Sprintf("nobody was logged: %s: %s", player.Name, refusal.Reason), "leave "+player.Typed(m.at())+" out, or "+refusal.Hint)
}
