package desk

import (
	"errors"
	"fmt"
	"strconv"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/inventory/travel"
)

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

// Emergency marks what is or may be broken, and tells what gets the player back on the
// ice, the fastest first. Asked again within a game, it only tells.
func (d *Desk) Emergency(alarm Alarm) (Rescue, Done, error) {
	var call deeds.CallEmergency
	runs := false
	err := d.ask(func(v inventory.View, at time.Time) (err error) {
		call, err = d.alarmed(v, alarm, at)
		runs = err == nil && isRunning(v, call, at)
		return err
	})
	if err != nil {
		return Rescue{}, Done{}, err
	}
	var done Done
	if !runs {
		if done, err = d.call(call); err != nil {
			return Rescue{}, done, err
		}
	}
	rescue, err := d.rescue(call)
	return rescue, done, err
}

// call records an emergency, unless another window did in the meantime.
func (d *Desk) call(call deeds.CallEmergency) (Done, error) {
	errRunning := errors.New("it runs already")
	done, err := d.act(func(v inventory.View, _ deeds.Moment) (deeds.Deed, error) {
		if isRunning(v, call, d.Instant()) {
			return nil, errRunning
		}
		return call, nil
	})
	if errors.Is(err, errRunning) {
		return Done{}, nil
	}
	return done, err
}

// Rescue tells again what gets a player back on the ice, and records nothing.
func (d *Desk) Rescue(player, pair inventory.Number, side inventory.Side, since time.Time) (Rescue, error) {
	rescue, err := d.rescue(deeds.CallEmergency{Player: player, Pair: pair, Side: side})
	rescue.Since = since
	return rescue, err
}

// rescue tells what gets the player back on the ice.
func (d *Desk) rescue(call deeds.CallEmergency) (Rescue, error) {
	rescue := Rescue{Player: call.Player, Pair: call.Pair, Side: call.Side, Options: []RescueOption{}, Unsafe: []inventory.Number{}}
	err := d.askNow(func(v *standing.Now) error {
		at := v.At
		player, err := inventory.PlayerOf(v, call.Player)
		if err != nil {
			return err
		}
		pair, err := inventory.FindPair(v, call.Pair)
		if err != nil {
			return err
		}
		rescue.Name, rescue.Sweater, rescue.Since = player.Name, player.Sweater(at), at
		if crisis, runs := player.Running(call.Pair, call.Side, at); runs {
			rescue.Since = crisis.When.Start
		}
		breakage := travel.BreakageOn(v, pair, call.Side, at)
		for _, n := range []inventory.Number{breakage.Holder, breakage.Runner} {
			if n != 0 {
				rescue.Unsafe = append(rescue.Unsafe, n)
			}
		}
		for _, option := range travel.Options(v, player, breakage) {
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
