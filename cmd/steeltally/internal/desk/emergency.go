package desk

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/inventory/wayback"
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
	What    wayback.Way        `json:"what"`
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
		breakage := wayback.BreakageOn(v, pair, call.Side, at)
		for _, n := range []inventory.Number{breakage.Holder, breakage.Runner} {
			if n != 0 {
				rescue.Unsafe = append(rescue.Unsafe, n)
			}
		}
		for _, option := range wayback.Options(v, player, breakage) {
			rescue.Options = append(rescue.Options, rescueOption(option))
		}
		return nil
	})
	return rescue, err
}

func rescueOption(o wayback.Option) RescueOption {
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
	return runs && isMarked(wayback.BreakageOn(v, pair, call.Side, at), call.Broke)
}

// isMarked tells whether what is said to have broken is marked; where nobody says what,
// anything on that side is.
func isMarked(b wayback.Breakage, broke string) bool {
	switch broke {
	case deeds.BrokeHolder:
		return b.Holder != 0
	case deeds.BrokeRunner:
		return b.Runner != 0
	}
	return b.Holder != 0 || b.Runner != 0
}

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
func (d *Desk) OpenRescue(who string, side inventory.Side) (rescue Rescue, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		n, err := crisisPlayer(v, who, at)
		if err != nil {
			return err
		}
		player, err := inventory.PlayerOf(v, n)
		if err != nil {
			return err
		}
		crisis, err := deeds.EndEmergency{Side: side}.Crisis(player, at)
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

// Clock is a player who waits to get back on the ice.
type Clock struct {
	Player inventory.Number `json:"player"`
	Who    string           `json:"who"` // as he is called where room is short
	Pair   inventory.Number `json:"pair"`
	Side   inventory.Side   `json:"side"`
	Since  time.Time        `json:"since"`
	Event  inventory.Key    `json:"event"`
}

// Same tells whether two are of one emergency.
func (c Clock) Same(other Clock) bool { return c.Event == other.Event }

// Clocks lists the emergencies of this game that nobody said the end of, the latest first.
func (d *Desk) Clocks() ([]Clock, error) {
	var clocks []Clock
	err := d.ask(func(v inventory.View, at time.Time) error {
		for _, member := range inventory.RosterOf(v).Members {
			if member.GoneAt(at) {
				continue
			}
			player, err := inventory.PlayerOf(v, member.Player)
			if err != nil {
				return err
			}
			for _, crisis := range player.OpenCrises(at) {
				if since := crisis.When.Start; crisis.Value.Done == nil && at.Sub(since) < inventory.OneEmergency {
					clocks = append(clocks, Clock{player.Number, called(player, at), crisis.Value.Pair, crisis.Value.Side, since, crisis.Event})
				}
			}
		}
		return nil
	})
	slices.SortStableFunc(clocks, func(a, b Clock) int { return b.Since.Compare(a.Since) })
	return clocks, err
}

// Damage records what was found wrong with a piece. Photographs are kept in the book's
// folder first: what the record names is there.
func (d *Desk) Damage(piece string, deed deeds.ReportDamage, photos []string) (Done, error) {
	n, err := inventory.ScannedNumber(piece)
	if err != nil {
		return Done{}, err
	}
	deed.Piece = n
	kept, err := d.keepPhotos(photos)
	if err != nil {
		return Done{}, err
	}
	deed.Photos = kept.names
	done, err := d.do(deed)
	if err != nil {
		kept.drop()
	}
	return done, err
}

// Inspect records a look at a piece, or at a pair with what hangs on it.
func (d *Desk) Inspect(piece string, deed deeds.Inspect) (Done, error) {
	n, err := inventory.ScannedNumber(piece)
	if err != nil {
		return Done{}, err
	}
	deed.Piece = n
	return d.do(deed)
}

// AddSession puts a game or a practice in the schedule; the start is as typed.
func (d *Desk) AddSession(start string, deed deeds.AddSession) (Done, error) {
	when, err := inventory.ParseWhen(start, d.zone)
	if err != nil {
		return Done{}, &inventory.BadValue{Reason: err.Error()}
	}
	deed.Start = when
	return d.do(deed)
}

// Broken lists the pieces of which an action says that nobody may skate on them, for
// their tags.
func (done Done) Broken() []inventory.Number {
	var numbers []inventory.Number
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.Damaged); ok && body.Unsafe {
			numbers = append(numbers, body.Piece)
		}
	}
	return numbers
}

// RescueWay is a way back onto the ice, with the pieces that would do as well.
type RescueWay struct {
	RescueOption
	OrElse []inventory.Number
}

// Ways are the ways back, fastest first; those that differ only by which of some like
// pieces is taken are one.
func (r Rescue) Ways() []RescueWay {
	var ways []RescueWay
	for _, option := range r.Options {
		if n := len(ways); n > 0 && alike(ways[n-1].RescueOption, option) {
			ways[n-1].OrElse = append(ways[n-1].OrElse, option.Numbers[0])
			continue
		}
		ways = append(ways, RescueWay{RescueOption: option})
	}
	return ways
}

// Did is the word that the record has for a way.
func (o RescueOption) Did() inventory.Remedy {
	switch o.What {
	case wayback.ByPair:
		return inventory.RemedySpare
	case wayback.ByHolder:
		return inventory.RemedyHolder
	}
	return inventory.RemedySteel
}

func alike(a, b RescueOption) bool {
	return a.What == b.What && a.Text == b.Text && a.Place == b.Place && a.Seconds == b.Seconds && slices.Equal(a.Lacks, b.Lacks)
}

// Clock is how long a way takes, as a clock shows it: 1:30.
func (o RescueOption) Clock() string { return SayClock(o.Seconds) }

// SayClock is a time in seconds as a clock shows it: 1:30.
func SayClock(seconds int) string { return fmt.Sprintf("%d:%02d", seconds/60, seconds%60) }
