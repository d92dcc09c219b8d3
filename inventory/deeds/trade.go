package deeds

import (
	"fmt"
	"slices"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Trade is a player who leaves the club with his skates.
type Trade struct {
	Player   inventory.Number
	To       string
	SteelOff bool // the steel that is on his pairs stays here too
}

// Decide lets skates and holders go with him; his history stays. The club's own steel
// that is on none of his pairs is named, so that it is recovered.
func (d Trade) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	if player.Gone {
		return out, inventory.Refuse(player.Name+" has left the club already", "steeltally player set "+player.Number.Short()+" --back if he is with the club again")
	}
	if err := checkName("where he goes", d.To); err != nil {
		return out, err
	}
	going, err := d.skates(v, m, player, &out)
	if err != nil {
		return out, err
	}
	if len(going) > 0 {
		out.record(m.Happened, &inventory.CustodyChanged{Pieces: inventory.Distinct(going), Custody: inventory.CustodyTraded, With: d.To})
	}
	out.record(m.Happened, &inventory.PlayerNoted{
		Player: d.Player, Name: player.Name, Position: player.Position, Sweater: player.Sweater(m.at()), Gone: true,
	})
	d.tellRecovered(v, m, player, going, &out)
	return out, nil
}

// skates lists the pairs that go, with what is on them; steel that stays comes off.
func (d Trade) skates(v inventory.View, m Moment, player *inventory.Player, out *Outcome) ([]inventory.Number, error) {
	var going []inventory.Number
	for _, n := range player.Pairs {
		pair, ok := v.Entity(inventory.RefOf(n)).(*inventory.Pair)
		if !ok || !pair.Entered() || pair.ScrappedAt(m.at()) || !pair.CustodyAt(m.at()).Ours() {
			continue
		}
		going = append(going, n)
		on := inventory.PiecesOn(pair, m.at())
		if d.SteelOff && pair.SetAt(m.at()) != 0 {
			on = slices.DeleteFunc(on, func(n inventory.Number) bool { return n.Kind() == inventory.KindRunner })
			take := TakeOut{Player: d.Player, Pair: n, Reason: inventory.ReasonRotate}
			if _, err := take.takeOut(v, m, player, pair, out); err != nil {
				return nil, err
			}
		}
		going = append(going, on...)
	}
	return going, nil
}

// tellRecovered names the sets that stay.
func (d Trade) tellRecovered(v inventory.View, m Moment, player *inventory.Player, going []inventory.Number, out *Outcome) {
	var stay []string
	for _, lettered := range player.Sets {
		set, ok := v.Entity(inventory.RefOf(lettered.Set)).(*inventory.Set)
		if !ok || standing.SetState(v, set, m.at()) == inventory.Removed || slices.Contains(going, set.Left) || slices.Contains(going, set.Right) {
			continue
		}
		stay = append(stay, fmt.Sprintf("%s (%s)", set.Letter, set.Number.Short()))
	}
	if len(stay) > 0 {
		out.tell("the club keeps his set "+strings.Join(stay, ", "), "match its runners anew for another player: steeltally set add")
	}
}
