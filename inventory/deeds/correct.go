package deeds

import (
	"errors"
	"fmt"
	"time"

	"steeltally/inventory"
)

// OtherSet says that grinds were done on another set than was thought: "last 2 were B".
type OtherSet struct {
	Grinds []inventory.Event // as recorded, oldest first
	Set    inventory.Number  // the set that it was
	Pair   inventory.Number  // that it was on; zero: the grinds' own
}

// WhichPairError asks which pair was ground, where a set was on another one than was
// thought: that one, or had the set gone over?
type WhichPairError struct {
	*inventory.Refusal
	Pairs    [2]inventory.Number // that the set was on, and that of the grinds
	Readings [2]string           // what either means, in words
}

func (e *WhichPairError) Unwrap() error { return e.Refusal }

// Decide voids the grinds and notes them on the other set, at their own times. Where
// that set was not on, the change that nobody scanned is noted too.
func (d OtherSet) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := onlyGrinds(d.Grinds); err != nil {
		return out, err
	}
	set, err := inventory.FindSet(v, d.Set)
	if err != nil {
		return out, err
	}
	if err := d.check(set); err != nil {
		return out, err
	}
	pair, on, err := d.pairs(v, set, Moment{d.Grinds[0].Happened, m.Now}.at())
	if err != nil {
		return out, err
	}
	correction, err := voiding(v, d.Grinds, "wrong set: it was "+set.Letter)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, correction)
	if err := d.unscannedChange(v, m, set, pair, on, correction.Voids, &out); err != nil {
		return out, err
	}
	for _, e := range d.Grinds {
		work := onSet(e.Body.(*inventory.Ground), set)
		work.Pair = pair
		out.record(e.Happened, work)
	}
	return out, nil
}

// pairs is the pair that was ground and the one that the set was on by the record, which
// can be another; zero is none.
func (d OtherSet) pairs(v inventory.View, set *inventory.Set, at time.Time) (meant, on inventory.Number, err error) {
	thought := d.Grinds[0].Body.(*inventory.Ground).Pair
	on = set.PairAt(inventory.Left, at)
	if on == 0 {
		on = set.PairAt(inventory.Right, at)
	}
	switch {
	case d.Pair != 0:
		return d.Pair, on, nil
	case thought == 0 && on != 0: // in the hand
		return on, on, nil
	case on == 0 || on == thought:
		return thought, on, nil
	}
	there, err1 := inventory.FindPair(v, on)
	here, err2 := inventory.FindPair(v, thought)
	if err := errors.Join(err1, err2); err != nil {
		return 0, 0, err
	}
	other := &WhichPairError{Pairs: [2]inventory.Number{on, thought}}
	role, own := there.Role(at), here.Role(at)
	other.Readings = [2]string{
		fmt.Sprintf("the %s pair was ground, with set %s on it", role, set.Letter),
		fmt.Sprintf("set %s had come off the %s pair and was on the %s pair", set.Letter, role, own),
	}
	other.Refusal = &inventory.Refusal{
		Reason: fmt.Sprintf("set %s was on the %s pair then, the grinds are on the %s pair", set.Letter, role, own),
		Hint:   fmt.Sprintf("--pair %s: %s; --pair %s: %s", role, other.Readings[0], own, other.Readings[1]),
	}
	return 0, 0, other
}

func (d OtherSet) check(set *inventory.Set) error {
	for _, e := range d.Grinds {
		switch old := e.Body.(*inventory.Ground); {
		case old.Player != set.Player:
			return inventory.Refuse("set "+set.Number.Short()+" is not that player's", "steeltally undo --was-player names another player")
		case old.Set == set.Number:
			return inventory.Refuse(fmt.Sprintf("entry %s is on set %s already", e.Key, set.Letter), "steeltally history shows what is recorded")
		}
	}
	return nil
}

func onlyGrinds(events []inventory.Event) error {
	if len(events) == 0 {
		return inventory.Refuse("there is no grind to correct", "steeltally history shows what is recorded")
	}
	for i := range events {
		if _, ok := events[i].Body.(*inventory.Ground); !ok {
			return inventory.Refuse(fmt.Sprintf("entry %s is no grind", events[i].Key), "steeltally undo takes it back")
		}
	}
	return nil
}

// onSet is the same work on another set's runners.
func onSet(old *inventory.Ground, set *inventory.Set) *inventory.Ground {
	work := *old
	work.Set, work.Both = set.Number, inventory.Both[inventory.Passes]{}
	for side, passes := range old.Each {
		work.Put(side, &inventory.Passes{Runner: set.Runner(side), Passes: passes.Passes})
	}
	return &work
}

// unscannedChange notes the change of steel that came before the grinds, where the
// other set was not on then, and first that it came off the pair that it was on.
func (d OtherSet) unscannedChange(v inventory.View, m Moment, set *inventory.Set, meant, on inventory.Number, voids []inventory.Key, out *Outcome) error {
	first := d.Grinds[0].Body.(*inventory.Ground)
	m.Happened = d.Grinds[0].Happened
	pair, ok := v.Entity(inventory.RefOf(meant)).(*inventory.Pair)
	if !ok || pair.SetAt(m.at()) == set.Number {
		return nil
	}
	player, err := inventory.PlayerOf(v, set.Player)
	if err != nil {
		return err
	}
	rotate := TakeOut{Reason: inventory.ReasonRotate}
	var from leaving
	if there, ok := v.Entity(inventory.RefOf(on)).(*inventory.Pair); ok && on != meant {
		if from, err = rotate.takeOut(v, m, player, there, out); err != nil {
			return err
		}
	}
	if err := rotate.change(v, m, player, pair, set, from, out); err != nil {
		return err
	}
	out.tellLaterGrinds(player, first.Set, m, voids...)
	return nil
}

// OtherPlayer says that grinds were done for another player than was scanned.
type OtherPlayer struct {
	Grinds []inventory.Event
	Player inventory.Number
}

// Decide voids the grinds and notes them on what the other player had on then.
func (d OtherPlayer) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := onlyGrinds(d.Grinds); err != nil {
		return out, err
	}
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	correction, err := voiding(v, d.Grinds, "wrong player: it was "+player.Name)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, correction)
	for _, e := range d.Grinds {
		then := Moment{e.Happened, m.Now}
		grind, err := onPlayer(v, then, e.Body.(*inventory.Ground), d.Player).Decide(v, then)
		if err != nil {
			return out, err
		}
		out.Drafts = append(out.Drafts, grind.Drafts...)
	}
	return out, nil
}

// onPlayer is the command that a recorded grind would be for another player. A hollow
// that was the first player's usual one was not said, so it is the other one's.
func onPlayer(v inventory.View, m Moment, b *inventory.Ground, player inventory.Number) Grind {
	grind := Grind{Player: player, Work: b.Work, Hollow: b.Hollow, Machine: b.Machine, By: b.By, More: b.More, Again: b.Again, Unknown: true}
	if was, ok := v.Entity(inventory.RefOf(b.Player)).(*inventory.Player); ok && b.Work == inventory.WorkGrind && b.Hollow != nil {
		if usual := was.SpecsAt(m.at()).Hollow; usual != nil && *usual == *b.Hollow {
			grind.Hollow = nil
		}
	}
	for side, passes := range b.Each {
		grind.Passes.Put(side, passes.Passes)
		grind.Unknown = grind.Unknown && passes.Passes == nil
	}
	return grind
}
