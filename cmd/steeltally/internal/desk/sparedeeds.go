package desk

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/travel"
)

// Tried notes what a player said of a pair that he tried; a player stands for his spare.
func (d *Desk) Tried(who string, deed deeds.NoteTry) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		deed.Pair, err = spareMeant(v, who, d.Instant())
		return deed, err
	})
}

// Skated notes a practice or a game on a pair that is not the first.
func (d *Desk) Skated(who string, game bool) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		pair, err := spareMeant(v, who, d.Instant())
		return deeds.NoteSkated{Pair: pair, Game: game}, err
	})
}

// Pitch notes how a pair's holders are pitched.
func (d *Desk) Pitch(who string, pitch geometry.Millimetre) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		pair, err := spareMeant(v, who, d.Instant())
		return deeds.NotePitch{Pair: pair, Pitch: pitch}, err
	})
}

// spareMeant is the pair that was scanned, or the spare pair of whom was named.
func spareMeant(v inventory.View, text string, at time.Time) (inventory.Number, error) {
	target, err := resolve(v, text, at)
	if err != nil {
		return 0, err
	}
	if target.Pair != 0 {
		return target.Pair, nil
	}
	if target.Player == 0 {
		return 0, notAPlayer(text)
	}
	player, err := inventory.PlayerOf(v, target.Player)
	if err != nil {
		return 0, err
	}
	pair, err := inventory.PairInRole(v, player, inventory.RoleSpare, at)
	if err != nil {
		return 0, err
	}
	return pair.Number, nil
}

// SetRules says when a spare pair counts as ready; no player is the club.
func (d *Desk) SetRules(player string, rules inventory.SpareRules) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		deed := deeds.SetRules{SpareRules: rules}
		if player != "" {
			deed.Player, err = resolvePlayer(v, player, d.Instant())
		}
		return deed, err
	})
}

// Promote moves a player's pairs up.
func (d *Desk) Promote(player string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		n, err := resolvePlayer(v, player, d.Instant())
		return deeds.Promote{Player: n}, err
	})
}

// Fixes lists the fixes whose minutes a club can set.
func Fixes() []string {
	var words []string
	for _, fix := range travel.Fixes() {
		words = append(words, string(fix))
	}
	return words
}
