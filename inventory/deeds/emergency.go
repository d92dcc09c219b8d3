package deeds

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// CallEmergency is a player who came off with something broken on one side. What broke
// may not be known yet.
type CallEmergency struct {
	Player inventory.Number
	Pair   inventory.Number // zero: the pair that the player skates on
	Side   inventory.Side
	Broke  string         // holder or runner; empty: nobody looked yet
	Mode   inventory.Mode // how, where that is known already
	Zone   inventory.Zone
}

// What can break on a side.
const (
	BrokeHolder  = "holder"
	BrokeNothing = "nothing" // of an emergency that is over
	BrokeRunner  = "runner"
)

// Decide marks what is or may be broken, so that nobody skates on it. A damage that is
// recorded of that side already says what broke.
func (d CallEmergency) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, pair, err := playerAndPair(v, d.Player, d.Pair, m, &out)
	if err != nil {
		return out, err
	}
	if err := d.check(); err != nil {
		return out, err
	}
	body := &inventory.Emergency{Player: player.Number, Pair: pair.Number, Side: d.Side}
	broken := d.broken(pair, m.at())
	if len(broken) == 0 {
		return out, inventory.Refuse(fmt.Sprintf("nothing is recorded on the %s boot of %s's %s pair", d.Side, player.Name, pair.Role(m.at())), "enter what hangs on it: steeltally rivet on, steeltally in")
	}
	if d.Mode != "" {
		report := ReportDamage{Piece: broken[0], Mode: d.Mode, Zone: d.Zone}
		if _, stands := report.standing(v, m.at()); !stands {
			damage, err := report.Decide(v, m)
			if err != nil {
				return out, err
			}
			out.add(damage)
		}
	} else {
		body.Suspects = suspects(v, pair, broken, d.Broke != "", m.at())
	}
	out.record(m.Happened, body)
	return out, nil
}

func (d CallEmergency) check() error {
	if d.Side == "" {
		return inventory.RefuseValue("on which side did it break?", "add --side left or --side right")
	}
	if d.Broke != "" {
		if err := oneOf("what broke", d.Broke, []string{BrokeHolder, BrokeRunner}); err != nil {
			return inventory.RefuseValue(err.Error(), "")
		}
	}
	if d.Mode != "" && d.Broke == "" {
		return inventory.RefuseValue("what broke?", "add --broke holder or --broke runner")
	}
	return nil
}

// broken lists what is on the side that is meant, or the one piece that was named.
func (d CallEmergency) broken(pair *inventory.Pair, at time.Time) []inventory.Number {
	var pieces []inventory.Number
	if holder := pair.HolderAt(d.Side, at); holder != 0 && d.Broke != BrokeRunner {
		pieces = append(pieces, holder)
	}
	if seat := pair.SeatAt(d.Side, at); seat.Runner != 0 && d.Broke != BrokeHolder {
		pieces = append(pieces, seat.Runner)
	}
	return pieces
}

// suspects are the pieces that may have broken. Where one was not named and a damage
// is recorded of that side already, there is nothing to guess.
func suspects(v inventory.View, pair *inventory.Pair, pieces []inventory.Number, named bool, at time.Time) []inventory.Number {
	var open []inventory.Number
	for _, n := range pieces {
		if standing.Skateable(v, at, n) {
			open = append(open, n)
		}
	}
	if !named && len(open) < len(pieces) {
		return nil
	}
	return open
}
