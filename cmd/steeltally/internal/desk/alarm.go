package desk

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/inventory/travel"
)

// Alarm is a player who came off with something broken, as it was scanned or said.
type Alarm struct {
	Who   string // player, pair, set, or the holder or runner that broke
	Pair  string // of the player's; empty: the one that he skates on
	Side  inventory.Side
	Broke string // holder or runner; empty: what was scanned, else nobody looked yet
	Mode  inventory.Mode
	Zone  inventory.Zone
}

// alarmed finds out who came off, with which pair, and what broke on which side.
func (d *Desk) alarmed(v inventory.View, alarm Alarm, at time.Time) (deeds.CallEmergency, error) {
	call := deeds.CallEmergency{Side: alarm.Side, Broke: alarm.Broke, Mode: alarm.Mode, Zone: alarm.Zone}
	var err error
	if n, notScanned := inventory.ScannedNumber(alarm.Who); notScanned == nil && (n.Kind() == inventory.KindHolder || n.Kind() == inventory.KindRunner) {
		err = brokenPiece(v, n, &call, at)
	} else {
		call.Player, call.Pair, err = d.playerAndPair(v, alarm.Who, alarm.Pair)
	}
	if err != nil || call.Pair != 0 {
		return call, err
	}
	player, err := inventory.PlayerOf(v, call.Player)
	if err != nil {
		return call, err
	}
	on, err := standing.SkatesOn(v, player, at)
	if err == nil {
		call.Pair = on.Number
	}
	return call, err
}

// brokenPiece is the emergency of a holder or runner that was scanned itself.
func brokenPiece(v inventory.View, n inventory.Number, call *deeds.CallEmergency, at time.Time) error {
	if n.Kind() == inventory.KindHolder {
		holder, err := inventory.FindHolder(v, n)
		if err != nil {
			return err
		}
		boot := holder.BootAt(at)
		call.Pair, call.Side = boot.Pair, boot.Side
	} else {
		runner, err := inventory.FindRunner(v, n)
		if err != nil {
			return err
		}
		move, _ := runner.Moves.At(at)
		if move.Kind == inventory.WentIn {
			call.Pair, call.Side = move.Pair, move.Side
		}
	}
	call.Broke = n.Kind().String()
	pair, err := inventory.FindPair(v, call.Pair)
	if err != nil {
		return &inventory.Refusal{Reason: n.Short() + " is on no boot", Hint: "say the player and the side: steeltally emergency 8 --side right"}
	}
	call.Player = pair.Player
	return nil
}

// isRunning tells whether the emergency that is meant is marked already, and nothing more
// is known of it now.
func isRunning(v inventory.View, call deeds.CallEmergency, at time.Time) bool {
	player, err := inventory.PlayerOf(v, call.Player)
	if err != nil || call.Mode != "" {
		return false
	}
	pair, err := inventory.FindPair(v, call.Pair)
	if err != nil {
		return false
	}
	_, runs := player.Running(pair.Number, call.Side, at)
	return runs && isMarked(travel.BreakageOn(v, pair, call.Side, at), call.Broke)
}

// isMarked tells whether what is said to have broken is marked; where nobody says what,
// anything on that side is.
func isMarked(b travel.Breakage, broke string) bool {
	switch broke {
	case deeds.BrokeHolder:
		return b.Holder != 0
	case deeds.BrokeRunner:
		return b.Runner != 0
	}
	return b.Holder != 0 || b.Runner != 0
}
