package desk

import (
	"fmt"
	"strconv"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/travel"
)

// Alarm is a player who came off with something broken, as it was scanned or said.
type Alarm struct {
	Who   string // player, pair, set, or the holder or runner that broke
	Pair  string // of the player's; empty: the first
	Side  inventory.Side
	Broke string // holder or runner; empty: what was scanned, else nobody looked yet
	Mode  string
	Zone  string
}

// Rescue is what gets the player back on the ice.
type Rescue struct {
	Player  inventory.Number   `json:"player"`
	Sweater int                `json:"sweater,omitempty"`
	Name    string             `json:"name"`
	Pair    inventory.Number   `json:"pair"`
	Side    inventory.Side     `json:"side"`
	Unsafe  []inventory.Number `json:"unsafe"`
	Options []RescueOption     `json:"options"`
	Since   time.Time          `json:"since"`
}

// RescueOption is one way back onto the ice.
type RescueOption struct {
	What    travel.Way         `json:"what"`
	Text    string             `json:"text"`
	Seconds int                `json:"seconds"`
	Place   string             `json:"place"`
	Numbers []inventory.Number `json:"numbers"`
	Felt    SidesMillimetre    `json:"felt_mm"`
	Lacks   []string           `json:"lacks"`
}

// newEmergency is how long after its start an emergency that nobody ended is still the
// same one.
const newEmergency = 3 * time.Hour

// Emergency marks what is or may be broken, and tells what gets the player back on the
// ice, the fastest first. Asked again within a game, it only tells.
func (d *Desk) Emergency(alarm Alarm) (Rescue, Done, error) {
	var call inventory.CallEmergency
	var since time.Time
	err := d.ask(func(v inventory.View, at time.Time) (err error) {
		call, err = d.alarmed(v, alarm, at)
		since = runningSince(v, call, at)
		return err
	})
	if err != nil {
		return Rescue{}, Done{}, err
	}
	var done Done
	if since.IsZero() {
		if done, err = d.do(call); err != nil {
			return Rescue{}, done, err
		}
		since = d.Instant()
	}
	rescue, err := d.rescue(call)
	rescue.Since = since
	return rescue, done, err
}

// alarmed finds out who came off, with which pair, and what broke on which side.
func (d *Desk) alarmed(v inventory.View, alarm Alarm, at time.Time) (inventory.CallEmergency, error) {
	call := inventory.CallEmergency{Side: alarm.Side, Broke: alarm.Broke, Mode: alarm.Mode, Zone: alarm.Zone}
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
	first, err := inventory.PairInRole(v, player, inventory.RoleFirst, at)
	if err == nil {
		call.Pair = first.Number
	}
	return call, err
}

// brokenPiece is the emergency of a holder or runner that was scanned itself.
func brokenPiece(v inventory.View, n inventory.Number, call *inventory.CallEmergency, at time.Time) error {
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

// runningSince is when the emergency that is meant began, where it is marked already and
// nothing more is known of it now; else the zero time.
func runningSince(v inventory.View, call inventory.CallEmergency, at time.Time) time.Time {
	player, err := inventory.PlayerOf(v, call.Player)
	if err != nil || call.Mode != "" {
		return time.Time{}
	}
	pair, err := inventory.FindPair(v, call.Pair)
	if err != nil {
		return time.Time{}
	}
	breakage := travel.BreakageOn(v, pair, call.Side, at)
	for _, crisis := range player.Crises.Until(at) {
		same := crisis.Value.Pair == call.Pair && crisis.Value.Side == call.Side
		marked := breakage.Holder != 0 || breakage.Runner != 0
		if same && marked && at.Sub(crisis.When.Start) < newEmergency {
			return crisis.When.Start
		}
	}
	return time.Time{}
}

// rescue tells what gets the player back on the ice.
func (d *Desk) rescue(call inventory.CallEmergency) (Rescue, error) {
	rescue := Rescue{Player: call.Player, Pair: call.Pair, Side: call.Side, Options: []RescueOption{}, Unsafe: []inventory.Number{}}
	err := d.ask(func(v inventory.View, at time.Time) error {
		player, err := inventory.PlayerOf(v, call.Player)
		if err != nil {
			return err
		}
		pair, err := inventory.FindPair(v, call.Pair)
		if err != nil {
			return err
		}
		rescue.Name, rescue.Sweater = player.Name, player.Sweater(at)
		breakage := travel.BreakageOn(v, pair, call.Side, at)
		for _, n := range []inventory.Number{breakage.Holder, breakage.Runner} {
			if n != 0 {
				rescue.Unsafe = append(rescue.Unsafe, n)
			}
		}
		for _, option := range travel.Options(v, player, breakage, at) {
			rescue.Options = append(rescue.Options, rescueOption(option))
		}
		return nil
	})
	return rescue, err
}

func rescueOption(o travel.Option) RescueOption {
	lacks := o.Lacks
	if lacks == nil {
		lacks = []string{}
	}
	return RescueOption{o.Way, o.What, o.Seconds, o.Place.String(), o.Numbers, sidesMillimetre(o.Felt), lacks}
}

// Whose names the player as people call him.
func (r Rescue) Whose() string {
	if r.Sweater == 0 {
		return r.Name
	}
	return fmt.Sprintf("%d %s", r.Sweater, r.Name)
}

// Typed is how the player is named on a command line.
func (r Rescue) Typed() string {
	if r.Sweater == 0 {
		return r.Player.Short()
	}
	return strconv.Itoa(r.Sweater)
}

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
	for _, member := range inventory.ClubOf(v).Players {
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
