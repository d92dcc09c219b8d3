package deeds

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// TakeOut takes steel off: the set that is on a player's pair, or one side of it.
type TakeOut struct {
	Player  inventory.Number
	Pair    inventory.Number // zero: the pair that the player skates on
	Side    inventory.Side   // empty: both
	Reason  inventory.Reason
	Heights inventory.Both[geometry.Millimetre] // middle, loose, as taken after removal
	AsRead  bool
	Place   *inventory.Place
}

// Decide records the last heights and what came out. What is done with by its reason
// is retired; see inventory.Reason.Retires.
func (d TakeOut) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, pair, err := playerAndPair(v, d.Player, d.Pair, m, &out)
	if err != nil {
		return out, err
	}
	_, err = d.takeOut(v, m, player, pair, &out)
	return out, err
}

// takeOut records what comes off, each set for itself: a holder that came from another
// pair with the steel in it puts two sets on one pair.
func (d TakeOut) takeOut(v inventory.View, m Moment, player *inventory.Player, pair *inventory.Pair, out *Outcome) (leaving, error) {
	if err := oneOf("reason", d.Reason, inventory.Reasons()); err != nil {
		return nil, inventory.RefuseValue(err.Error(), "")
	}
	var taken leaving
	for _, side := range inventory.Sides() {
		if d.Side != "" && side != d.Side {
			continue
		}
		if err := refuseLaterBoot(pair, side, m); err != nil {
			return nil, err
		}
		if seat := pair.SeatAt(side, m.at()); seat.Runner != 0 {
			body := taken.of(seat.Set, inventory.TakenOut{Player: player.Number, Pair: pair.Number, Set: seat.Set, Reason: d.Reason, Place: d.Place})
			body.Put(side, &inventory.Removal{Runner: seat.Runner, Holder: seat.Holder})
		}
	}
	if len(taken) == 0 {
		return nil, inventory.Refuse(fmt.Sprintf("no steel is on %s's %s pair", player.Name, pair.Role(m.at())), "steeltally in puts a set on")
	}
	return taken, d.recordTaken(v, m, &taken, out)
}

// recordTaken records bodies of steel that comes off, with the heights that were taken.
func (d TakeOut) recordTaken(v inventory.View, m Moment, taken *leaving, out *Outcome) error {
	for side := range d.Heights.Each {
		if !taken.empties(side) {
			return inventory.Refuse(fmt.Sprintf("no %s runner comes off", side), "leave that height out")
		}
	}
	for _, body := range *taken {
		body.LastGame = lastGameWords(v, m.at())
		if err := refuseLaterOut(v, body, m); err != nil {
			return err
		}
		decideRetired(v, body, m.at(), out)
		if err := d.measure(v, m, body, out); err != nil {
			return err
		}
		out.record(m.Happened, body)
	}
	return nil
}

// leaving is what comes off in one action, by set.
type leaving []*inventory.TakenOut

// of is the body of a set; the first time it is made like one.
func (l *leaving) of(set inventory.Number, like inventory.TakenOut) *inventory.TakenOut {
	for _, body := range *l {
		if body.Set == set {
			return body
		}
	}
	*l = append(*l, &like)
	return &like
}

// empties tells whether the runner of a side comes off.
func (l leaving) empties(side inventory.Side) bool {
	return slices.ContainsFunc(l, func(body *inventory.TakenOut) bool { return body.Of(side) != nil })
}

// takes tells whether a runner comes off.
func (l leaving) takes(n inventory.Number) bool {
	return slices.ContainsFunc(l, func(body *inventory.TakenOut) bool {
		return body.Left != nil && body.Left.Runner == n || body.Right != nil && body.Right.Runner == n
	})
}

// refuseLaterOut refuses to take out before what a runner or its holder did since.
func refuseLaterOut(v inventory.View, b *inventory.TakenOut, m Moment) error {
	for _, removal := range b.Each {
		if runner, ok := v.Entity(inventory.RefOf(removal.Runner)).(*inventory.Runner); ok {
			if err := refuseLaterRunner(runner, m); err != nil {
				return err
			}
		}
		if holder, ok := v.Entity(inventory.RefOf(removal.Holder)).(*inventory.Holder); ok {
			if err := refuseLaterHolder(holder, m); err != nil {
				return err
			}
		}
	}
	return nil
}

// decideRetired settles which runners are done with. Where something broke, it is the
// damaged runner; its mate goes on living. Where no damage is recorded, it is both.
func decideRetired(v inventory.View, body *inventory.TakenOut, at time.Time, out *Outcome) {
	if !body.Reason.Retires() {
		return
	}
	damaged := 0
	if body.Reason.Breaks() {
		for _, removal := range body.Each {
			runner, ok := v.Entity(inventory.RefOf(removal.Runner)).(*inventory.Runner)
			removal.Retired = ok && len(runner.OpenDamages(at)) > 0
			if removal.Retired {
				damaged++
			}
		}
	}
	if damaged > 0 {
		return
	}
	var off []string
	for _, removal := range body.Each {
		removal.Retired = true
		off = append(off, removal.Runner.Short())
	}
	if body.Reason.Breaks() {
		slices.Sort(off)
		out.tell("no damage is recorded of "+strings.Join(off, " and ")+": done with all the same",
			"say which and where: steeltally damage RUNNER --mode break")
	}
}

// measure records the heights that were taken as the steel came off.
func (d TakeOut) measure(v inventory.View, m Moment, body *inventory.TakenOut, out *Outcome) error {
	measure := MeasureSteel{Player: body.Player, Set: body.Set, Reference: inventory.Loose, AsRead: d.AsRead}
	for side, height := range d.Heights.Each {
		if removal := body.Of(side); removal != nil {
			measure.Heights = append(measure.Heights, inventory.Height{Runner: removal.Runner, Side: side, Middle: height})
		}
	}
	if len(measure.Heights) == 0 {
		return nil
	}
	measured, err := measure.Decide(v, m)
	out.Drafts = append(out.Drafts, measured.Drafts...)
	out.Notices = append(out.Notices, measured.Notices...)
	return err
}

// lastGameWords names the last game for a tag: "Rime Point 27 Nov".
func lastGameWords(v inventory.View, at time.Time) string {
	game, ok := inventory.LastGame(v, at)
	if !ok {
		return ""
	}
	return game.Value.Opponent + " " + game.When.Start.In(inventory.ClubOf(v).Location()).Format("2 Jan")
}

// ChangeSteel takes one set off and puts another on.
type ChangeSteel struct {
	TakeOut
	Set inventory.Number
}

// Decide is both halves as one action: nothing is recorded unless both can be.
func (d ChangeSteel) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, pair, err := playerAndPair(v, d.Player, d.Pair, m, &out)
	if err != nil {
		return out, err
	}
	set, err := inventory.FindSet(v, d.Set)
	if err != nil {
		return out, err
	}
	if err := d.change(v, m, player, pair, set, nil, &out); err != nil {
		return out, err
	}
	out.tellLaterGrinds(player, pair.SetAt(m.at()), m)
	return out, nil
}

// change takes off what is on and puts a set on, which may have come from another pair by
// the same action.
func (d TakeOut) change(v inventory.View, m Moment, player *inventory.Player, pair *inventory.Pair, set *inventory.Set, from leaving, out *Outcome) error {
	if err := checkSetCanGoOn(v, set, pair, player, from, m.at()); err != nil {
		return err
	}
	if standing.SetState(v, set, m.at()) == inventory.On && len(from) == 0 {
		return inventory.Refuse("one runner of set "+set.Letter+" is on", "steeltally in puts its other runner back")
	}
	taken, err := d.takeOut(v, m, player, pair, out)
	if err != nil {
		return err
	}
	return putIn(v, m, player, pair, set, append(from, taken...), out)
}

// tellLaterGrinds says that grinds after a change entered late went to the old set.
func (o *Outcome) tellLaterGrinds(player *inventory.Player, old inventory.Number, m Moment, going ...inventory.Key) {
	later := 0
	for _, grind := range player.Grinds.Without(going) {
		if grind.Value == old && grind.When.After(m.at()) {
			later++
		}
	}
	if later > 0 {
		hint := fmt.Sprintf("if they were on the new one: steeltally undo %s --last %d --was-set LETTER", player.Number.Short(), later)
		o.tell(fmt.Sprintf("%d grinds since then are logged on the old set", later), hint)
	}
}

// TakeRunnerOut takes one runner out of the holder that it is in, on a boot or off.
type TakeRunnerOut struct {
	Runner inventory.Number
	Reason inventory.Reason
	Height *geometry.Millimetre
	AsRead bool
	Place  *inventory.Place
}

// Decide finds where the runner is and records it as out of there.
func (d TakeRunnerOut) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	runner, err := inventory.FindRunner(v, d.Runner)
	if err != nil {
		return out, err
	}
	move, _ := runner.Moves.At(m.at())
	if move.Kind != inventory.WentIn {
		return out, inventory.Refuse(d.Runner.Short()+" is in no holder", "steeltally history "+d.Runner.Short()+" shows where it was")
	}
	take := TakeOut{Player: move.Player, Pair: move.Pair, Side: move.Side, Reason: d.Reason, AsRead: d.AsRead, Place: d.Place}
	take.Heights.Put(move.Side, d.Height)
	if move.Pair == 0 {
		return take.fromLooseHolder(v, m, d.Runner, move)
	}
	if pair, ok := v.Entity(inventory.RefOf(move.Pair)).(*inventory.Pair); ok && pair.SeatAt(move.Side, m.at()).Runner != d.Runner {
		return out, inventory.Refuse(fmt.Sprintf("%s is not what the record has on the %s boot of %s", d.Runner.Short(), move.Side, move.Pair.Short()),
			"the record contradicts itself: settle that first, steeltally history "+move.Pair.Short())
	}
	return take.Decide(v, m)
}

// fromLooseHolder takes a runner out of a holder that is on no boot.
func (d TakeOut) fromLooseHolder(v inventory.View, m Moment, runner inventory.Number, move inventory.Move) (Outcome, error) {
	var out Outcome
	if err := oneOf("reason", d.Reason, inventory.Reasons()); err != nil {
		return out, inventory.RefuseValue(err.Error(), "")
	}
	body := &inventory.TakenOut{Player: move.Player, Set: move.Set, Reason: d.Reason, Place: d.Place}
	body.Put(move.Side, &inventory.Removal{Runner: runner, Holder: move.Holder})
	return out, d.recordTaken(v, m, &leaving{body}, &out)
}
