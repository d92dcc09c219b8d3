package deeds

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// PutSetIn puts a set on a pair.
type PutSetIn struct {
	Player inventory.Number
	Set    inventory.Number
	Pair   inventory.Number // zero: the player's first pair
}

// Decide checks that the set is whole and sound, fits the holders, and that the pair
// is free.
func (d PutSetIn) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, pair, err := playerAndPair(v, d.Player, d.Pair, m, &out)
	if err != nil {
		return out, err
	}
	set, err := inventory.FindSet(v, d.Set)
	if err != nil {
		return out, err
	}
	err = putIn(v, m, player, pair, set, nil, &out)
	return out, err
}

// playerAndPair is a player with the pair that is meant: the one that was named, else the
// one that he skates on. Where that is another than his first, it is said.
func playerAndPair(v inventory.View, player, pair inventory.Number, m Moment, out *Outcome) (*inventory.Player, *inventory.Pair, error) {
	p, err := inventory.PlayerOf(v, player)
	if err != nil {
		return nil, nil, err
	}
	if pair == 0 {
		on, err := standing.SkatesOn(v, p, m.at())
		if err == nil && on.Moment != nil {
			typed := p.Typed(m.at())
			out.tell(fmt.Sprintf("%s skates on his %s pair for the moment: this is about that one", p.Name, on.Role(m.at())),
				"his first is --pair first; steeltally emergency close "+typed+" when he is back on it")
		}
		return p, on.Pair, err
	}
	named, err := inventory.FindPair(v, pair)
	if err == nil && named.Player != player {
		err = inventory.Refuse("pair "+pair.Short()+" is not "+p.Name+"'s", "scan the pair that is meant")
	}
	return p, named, err
}

// putIn decides a set going on, or the runner of it that is not on. What is taken off
// by the same action leaves its seats empty.
func putIn(v inventory.View, m Moment, player *inventory.Player, pair *inventory.Pair, set *inventory.Set, taken leaving, out *Outcome) error {
	at := m.at()
	if err := checkSetCanGoOn(v, set, pair, player, taken, at); err != nil {
		return err
	}
	body := &inventory.PutIn{Player: player.Number, Pair: pair.Number, Set: set.Number, Order: orderOf(player, set)}
	for _, side := range inventory.Sides() {
		if set.PairAt(side, at) == pair.Number {
			if !standing.Skateable(v, at, set.Runner(side)) {
				return inventory.Refuse("runner "+set.Runner(side).Short()+" is damaged: do not skate on it", "take it out first: steeltally out "+set.Runner(side).Short())
			}
			continue // only its other runner came off
		}
		fit, err := fitInto(v, m, pair, side, set.Runner(side), taken, out)
		if err != nil {
			return err
		}
		body.Put(side, fit)
	}
	if standing.NeverGround(set, at) {
		out.tell(fmt.Sprintf("set %s was not ground yet", set.Letter), "grind it before it is skated on")
	}
	out.record(m.Happened, body)
	return nil
}

func checkSetCanGoOn(v inventory.View, set *inventory.Set, pair *inventory.Pair, player *inventory.Player, taken leaving, at time.Time) error {
	if set.Player != player.Number {
		return inventory.Refuse("set "+set.Number.Short()+" is not "+player.Name+"'s", "match its runners anew: steeltally set add")
	}
	if err := checkWhole(v, set, at); err != nil {
		return err
	}
	left, right := set.PairAt(inventory.Left, at), set.PairAt(inventory.Right, at)
	if left == pair.Number && right == pair.Number {
		return inventory.Refuse("set "+set.Letter+" is already on", "there is nothing to do; for another set name its letter: steeltally change "+player.Typed(at)+" LETTER")
	}
	for _, side := range inventory.Sides() {
		if on := set.PairAt(side, at); on != 0 && on != pair.Number && !taken.takes(set.Runner(side)) {
			return inventory.Refuse("set "+set.Letter+" is on pair "+on.Short(), "take it off there first: steeltally out")
		}
	}
	return nil
}

// checkWhole refuses a set that was not made yet at an instant, or that gave up a runner.
func checkWhole(v inventory.View, s *inventory.Set, at time.Time) error {
	if s.Since.After(at) {
		return inventory.Refuse(fmt.Sprintf("set %s %s was made only on %s", s.Letter, s.Number.Short(), s.Since.Say(inventory.ClubOf(v).Location())),
			"say its number if another set with that letter is meant; or enter when it was made: steeltally set add --at")
	}
	if s.BrokenAt(at) {
		return inventory.Refuse("set "+s.Letter+" gave a runner to another set", "match two runners anew: steeltally set add")
	}
	return nil
}

// orderOf is the how-manieth set of its player a set is: 1 for the first ever used.
func orderOf(player *inventory.Player, set *inventory.Set) int {
	for i, used := range player.Used {
		if used.Value == set.Number {
			return i + 1
		}
	}
	return len(player.Used) + 1
}

// fitInto decides one runner going into the holder of a boot.
func fitInto(v inventory.View, m Moment, pair *inventory.Pair, side inventory.Side, n inventory.Number, taken leaving, out *Outcome) (*inventory.Fit, error) {
	at := m.at()
	runner, err := inventory.FindRunner(v, n)
	if err != nil {
		return nil, err
	}
	if !standing.Skateable(v, at, n) {
		return nil, inventory.Refuse("runner "+n.Short()+" is damaged: do not skate on it", "match another runner: steeltally set add")
	}
	if standing.Held(v, runner, at) && !taken.takes(n) {
		return nil, inventory.Refuse("runner "+n.Short()+" is in a holder", "take it out first: steeltally out "+n.Short()+" --reason rotate")
	}
	if seat := pair.SeatAt(side, at); seat.Runner != 0 && !taken.empties(side) {
		return nil, inventory.Refuse(fmt.Sprintf("runner %s is on the %s boot", seat.Runner.Short(), side), "steeltally change takes one set off and puts the other on")
	}
	if err := refuseLaterBoot(pair, side, m); err != nil {
		return nil, err
	}
	if err := refuseLaterRunner(runner, m); err != nil {
		return nil, err
	}
	if standing.RunnerState(v, runner, at) == inventory.Removed {
		out.tell(fmt.Sprintf("%s is put back in use; its old tag is void", n.Short()), "throw the old tie-on tag away")
	}
	holder, err := holderThatFits(v, m, pair, side, runner, out)
	return &inventory.Fit{Runner: n, Holder: holder}, err
}

// holderThatFits is the holder of a boot, once it is known to be sound and to fit.
func holderThatFits(v inventory.View, m Moment, pair *inventory.Pair, side inventory.Side, runner *inventory.Runner, out *Outcome) (inventory.Number, error) {
	at := m.at()
	n := pair.HolderAt(side, at)
	if n == 0 {
		out.tell(fmt.Sprintf("no holder is recorded on the %s boot", side), "enter it with steeltally stockin holder and steeltally rivet on")
		return 0, nil
	}
	holder, err := inventory.FindHolder(v, n)
	if err != nil {
		return 0, err
	}
	if !standing.Skateable(v, at, n) {
		return 0, inventory.Refuse(fmt.Sprintf("the %s holder %s is damaged: do not skate on it", side, n.Short()), "rivet another one on first")
	}
	if err := refuseLaterHolder(holder, m); err != nil {
		return 0, err
	}
	why, sure := inventory.Fits(v, &runner.Stock, &holder.Stock)
	if sure && why != "" {
		return 0, inventory.Refuse(fmt.Sprintf("runner %s does not fit holder %s: %s", runner.Number.Short(), n.Short(), why), "take steel that fits this holder")
	}
	if why != "" && len(holder.Runners) == 0 {
		out.tell(why, "try it by hand; steeltally model add declares it")
	}
	return n, nil
}
