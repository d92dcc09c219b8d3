package deeds

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// MakeSet matches two runners as a set of a player.
type MakeSet struct {
	Player      inventory.Number
	Left, Right inventory.Number
	Letter      string // empty: the next one
}

// Decide gives the set a number and a letter. A removed runner may be used again; a
// runner of another set that is not on breaks that set; both are said.
func (d MakeSet) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	body := &inventory.SetMade{Player: d.Player, Left: d.Left, Right: d.Right}
	if body.Letter, err = letterFor(v, player, d.Letter, m.at()); err != nil {
		return out, err
	}
	if err := d.checkRunners(v, m, body, &out); err != nil {
		return out, err
	}
	numbers, err := nextNumbers(v, inventory.KindSet, 1, &out)
	if err != nil {
		return out, err
	}
	body.Set = numbers[0]
	out.record(m.Happened, body)
	return out, nil
}

// letterFor is the letter that was asked for, or the one after the player's last
// letter that no set of his still has.
func letterFor(v inventory.View, player *inventory.Player, asked string, at time.Time) (string, error) {
	live := map[string]bool{}
	for _, lettered := range player.Sets {
		if set, ok := v.Entity(inventory.RefOf(lettered.Set)).(*inventory.Set); ok && standing.SetState(v, set, at) != inventory.Removed {
			live[lettered.Letter] = true
		}
	}
	if asked != "" {
		return askedLetter(player, asked, live)
	}
	last := byte('Z')
	if n := len(player.Sets); n > 0 && isLetter(player.Sets[n-1].Letter) {
		last = player.Sets[n-1].Letter[0]
	}
	for step := byte(1); step <= 26; step++ {
		letter := string('A' + (last-'A'+step)%26)
		if !live[letter] {
			return letter, nil
		}
	}
	return "", inventory.Refuse(player.Name+" has a set for every letter", "take old sets out of use first: steeltally out")
}

func askedLetter(player *inventory.Player, asked string, live map[string]bool) (string, error) {
	if !isLetter(asked) {
		return "", inventory.RefuseValue(fmt.Sprintf("a set's letter is one of A to Z, not %s", inventory.Clip(asked)), "")
	}
	if live[asked] {
		return "", inventory.Refuse(fmt.Sprintf("%s has a set %s already", player.Name, asked), "leave the letter out to get the next one")
	}
	return asked, nil
}

func isLetter(text string) bool { return len(text) == 1 && text[0] >= 'A' && text[0] <= 'Z' }

func (d MakeSet) checkRunners(v inventory.View, m Moment, body *inventory.SetMade, out *Outcome) error {
	if d.Left == d.Right {
		return inventory.Refuse(d.Left.Short()+" can't be left and right", "scan one runner for each side")
	}
	left, err := d.checkRunner(v, d.Left, inventory.Left, m, body, out)
	if err != nil {
		return err
	}
	right, err := d.checkRunner(v, d.Right, inventory.Right, m, body, out)
	if err != nil {
		return err
	}
	if err := d.refuseSame(v, left.SetAt(m.at()), m.at()); err != nil {
		return err
	}
	if left.Model != right.Model {
		out.tell(fmt.Sprintf("left is a %s, right a %s", left.Model, right.Model), "check that both were meant")
	}
	if left.Size != right.Size {
		out.tell(fmt.Sprintf("left is a %d, right a %d", left.Size, right.Size), "right for boots that differ in size")
	}
	return nil
}

// refuseSame refuses to make a set of the two that were made one of his within a day: that is
// one set entered twice, and its letter is on their sleeve.
func (d MakeSet) refuseSame(v inventory.View, is inventory.Number, at time.Time) error {
	set, ok := v.Entity(inventory.RefOf(is)).(*inventory.Set)
	if !ok || !d.pairs(set) || set.Player != d.Player || set.BrokenAt(at) || standing.SetState(v, set, at) == inventory.Removed || at.Sub(set.Since.Start) > enteredTwice {
		return nil
	}
	if d.Letter != "" && d.Letter != set.Letter {
		return nil // it gets another letter
	}
	return inventory.Refuse(fmt.Sprintf("%s and %s are his set %s already", d.Left.Short(), d.Right.Short(), set.Letter), "there is nothing to do; for another set scan other runners")
}

// enteredTwice is how close two entries of one thing must be to be one that was entered
// twice; common practice, no source.
const enteredTwice = 24 * time.Hour

// pairs tells whether a set is of the same two runners.
func (d MakeSet) pairs(set *inventory.Set) bool { return set.Left == d.Left && set.Right == d.Right }

func (d MakeSet) checkRunner(v inventory.View, n inventory.Number, side inventory.Side, m Moment, body *inventory.SetMade, out *Outcome) (*inventory.Runner, error) {
	at := m.at()
	runner, err := inventory.FindRunner(v, n)
	if err != nil {
		return nil, err
	}
	if !standing.Skateable(v, at, n) {
		return nil, inventory.Refuse(n.Short()+" is damaged: do not skate on it", "take another runner")
	}
	if err := refuseLaterRunner(runner, m); err != nil {
		return nil, err
	}
	switch {
	case standing.Held(v, runner, at):
		return nil, inventory.Refuse(n.Short()+" is in a holder", "take it out first: steeltally out "+n.Short()+" --reason rotate")
	case standing.RunnerState(v, runner, at) == inventory.Removed:
		out.tell(fmt.Sprintf("%s is put back in use; its old tag is void", n.Short()), "throw the old tie-on tag away")
	}
	if was := runner.SideAt(at); was != "" && was != side {
		return nil, inventory.Refuse(fmt.Sprintf("%s is a %s runner, not a %s one", n.Short(), was, side), "swap the two: --left and --right")
	}
	d.breakSet(v, runner.SetAt(at), at, body, out)
	return runner, nil
}

// breakSet notes that a set gives up a runner, also where it gave up the other before:
// either can be taken back.
func (d MakeSet) breakSet(v inventory.View, n inventory.Number, at time.Time, body *inventory.SetMade, out *Outcome) {
	set, ok := v.Entity(inventory.RefOf(n)).(*inventory.Set)
	if !ok || slices.Contains(body.Breaks, n) {
		return
	}
	body.Breaks = append(body.Breaks, n)
	if standing.SetState(v, set, at) == inventory.Ready && !set.BrokenAt(at) {
		hint := "its other runner is free for another set"
		if d.pairs(set) {
			hint = "write the new letter on its sleeve"
		}
		out.tell(fmt.Sprintf("set %s %s is no set any more", set.Letter, n.Short()), hint)
	}
}
