package desk

import (
	"time"

	"steeltally/inventory"
)

// Target is what was typed or scanned to say whose steel is meant: a player (by sweater,
// name or number), one of his pairs, or a set.
type Target struct {
	Player inventory.Number
	Pair   inventory.Number // zero: the player's first pair
	Set    inventory.Number // zero: what is or was on the pair
	Runner inventory.Number // zero: both of the set
}

// resolve finds out what a text stands for at an instant, for something to be recorded. A
// name alone is too easily somebody else's: it is told whose it is, and nothing is recorded.
func resolve(v inventory.View, text string, at time.Time) (Target, error) {
	target, err := lookUp(v, text, at)
	if err != nil || !inventory.ByName(text) {
		return target, err
	}
	player, err := inventory.PlayerOf(v, target.Player)
	if err != nil {
		return Target{}, err
	}
	return Target{}, &NamedOnlyError{&inventory.Refusal{
		Reason: "a name alone records nothing; " + inventory.Clip(text) + " is " + heading(player, at),
		Hint:   "if he is meant type " + typedSurely(v, player, at),
	}}
}

// NamedOnlyError says who was named where something would be recorded.
type NamedOnlyError struct{ *inventory.Refusal }

func (e *NamedOnlyError) Unwrap() error { return e.Refusal }

// typedSurely is what to type for a player and nobody else.
func typedSurely(v inventory.View, player *inventory.Player, at time.Time) string {
	if typed, err := inventory.FindPlayer(v, player.Typed(at), at); err == nil && typed.Number == player.Number {
		return player.Typed(at)
	}
	return player.Number.Short()
}

// lookUp finds out what a text stands for at an instant, to show it.
func lookUp(v inventory.View, text string, at time.Time) (Target, error) {
	n, err := inventory.ScannedNumber(text)
	if err != nil {
		player, err := inventory.FindPlayer(v, text, at)
		if err != nil {
			return Target{}, err
		}
		return Target{Player: player.Number}, nil
	}
	switch n.Kind() {
	case inventory.KindPair:
		pair, err := inventory.FindPair(v, n)
		if err != nil {
			return Target{}, err
		}
		return Target{Player: pair.Player, Pair: n}, nil
	case inventory.KindSet:
		set, err := inventory.FindSet(v, n)
		if err != nil {
			return Target{}, err
		}
		return Target{Player: set.Player, Set: n}, nil
	case inventory.KindRunner:
		runner, err := inventory.FindRunner(v, n)
		if err != nil {
			return Target{}, err
		}
		return Target{Set: runner.SetAt(at), Runner: n}, nil
	}
	player, err := inventory.PlayerOf(v, n)
	if err != nil {
		return Target{}, err
	}
	return Target{Player: player.Number}, nil
}

// playerFinder is one of the two that follow.
type playerFinder func(v inventory.View, text string, at time.Time) (inventory.Number, error)

// resolvePlayer finds a player, for something to be recorded; a pair or a set stands for
// its player.
func resolvePlayer(v inventory.View, text string, at time.Time) (inventory.Number, error) {
	target, err := resolve(v, text, at)
	return playerOfTarget(target, text, err)
}

// lookUpPlayer finds a player, to show something of him.
func lookUpPlayer(v inventory.View, text string, at time.Time) (inventory.Number, error) {
	target, err := lookUp(v, text, at)
	return playerOfTarget(target, text, err)
}

func playerOfTarget(target Target, text string, err error) (inventory.Number, error) {
	if err != nil {
		return 0, err
	}
	if target.Player == 0 {
		return 0, notAPlayer(text)
	}
	return target.Player, nil
}

func notAPlayer(text string) error {
	return &inventory.Refusal{Reason: text + " is a runner, not a player", Hint: "say the sweater, or scan the player, the pair or the set"}
}

// pairOf finds the pair that is meant by a text, a role or a number; zero is the first.
func pairOf(v inventory.View, player inventory.Number, text string, at time.Time) (inventory.Number, error) {
	if text == "" {
		return 0, nil
	}
	for _, role := range inventory.Roles() {
		if text != string(role) {
			continue
		}
		p, err := inventory.PlayerOf(v, player)
		if err != nil {
			return 0, err
		}
		pair, err := inventory.PairInRole(v, p, role, at)
		if err != nil {
			return 0, err
		}
		return pair.Number, nil
	}
	return inventory.ParseNumber(text)
}

// setOf finds a player's set by letter or number.
func setOf(v inventory.View, player inventory.Number, text string) (inventory.Number, error) {
	p, err := inventory.PlayerOf(v, player)
	if err != nil {
		return 0, err
	}
	set, err := inventory.SetOfPlayer(v, p, text)
	if err != nil {
		return 0, err
	}
	return set.Number, nil
}

// Pick tells which players a text can stand for, so that a person can be asked.
func (d *Desk) Pick(text string) (*inventory.Ambiguous, error) {
	var ambiguous *inventory.Ambiguous
	err := d.ask(func(v inventory.View, at time.Time) error {
		_, err := inventory.FindPlayer(v, text, at)
		if found, ok := err.(*inventory.Ambiguous); ok {
			ambiguous = found
		}
		return nil
	})
	return ambiguous, err
}
