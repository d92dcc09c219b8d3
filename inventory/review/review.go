// Package review looks back on steel: on a bin of removed runners, a player, a season,
// or the whole club. It adds up what each piece went through, compares left with right,
// lots and models with each other, and says what stands out; where the figures are too
// few it says so.
//
// What the record does not know is taken from the tags alone.
package review

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// Review is what is told of some pieces.
type Review struct {
	Pieces    int       // those that are done with, and all of a bin
	Players   []*Player // in sweater order
	Removals  []*Life   // runners that are done with, in the order in which they came off
	Findings  []Finding // those that differ first
	Operators []Hand
	Machines  []Hand
	Reasons   Incidence
	Unworked  []inventory.Unworked // those of whom it could not be worked out
}

// Span is the time that a review is about.
type Span struct{ From, Until time.Time }

// Compile tells what lives come to. Who names a player and tells goalkeepers from
// skaters. Players of whom it can't be worked out are left out.
func Compile(lives []*Life, who func(inventory.Number) (string, bool), span Span, c wear.Constants) (*Review, error) {
	all, err := compiled(lives, who, span, c)
	if err == nil {
		return all, nil
	}
	sound, unworked := soundOnes(lives, who, span, c)
	if len(unworked) == 0 {
		return nil, err
	}
	if all, err = compiled(sound, who, span, c); err != nil {
		return nil, err
	}
	all.Unworked = unworked
	return all, nil
}

// soundOnes are the lives of the players each of whom alone can be worked out.
func soundOnes(lives []*Life, who func(inventory.Number) (string, bool), span Span, c wear.Constants) (sound []*Life, unworked []inventory.Unworked) {
	byPlayer := map[playerKey][]*Life{}
	var order []playerKey
	for _, life := range lives {
		key := keyOf(life)
		if byPlayer[key] == nil {
			order = append(order, key)
		}
		byPlayer[key] = append(byPlayer[key], life)
	}
	for _, key := range order {
		own := byPlayer[key]
		if _, err := compiled(own, who, span, c); err != nil {
			name, _ := who(key.number)
			unworked = append(unworked, inventory.Unworked{About: own[0].owner(), Sweater: own[0].Sweater, Name: name, Cause: err})
			continue
		}
		sound = append(sound, own...)
	}
	return sound, unworked
}

// owner is the player, or where he is not known the piece.
func (l *Life) owner() inventory.Number {
	if l.Player != 0 {
		return l.Player
	}
	return l.Number
}

func compiled(lives []*Life, who func(inventory.Number) (string, bool), span Span, c wear.Constants) (r *Review, err error) {
	err = inventory.Guard(func() error {
		r, err = putTogether(lives, who, span, c)
		return err
	})
	return r, err
}

func putTogether(lives []*Life, who func(inventory.Number) (string, bool), span Span, c wear.Constants) (*Review, error) {
	r := &Review{Players: playersOf(lives, who)}
	for _, life := range inOrder(lives) {
		if !life.InUse {
			r.Pieces++
			if life.Steel() {
				r.Removals = append(r.Removals, life)
			}
		}
	}
	l := looker{lives: lives, players: r.Players, span: span, learnt: map[*Player]*learnt{}}
	if err := l.learn(c); err != nil {
		return nil, err
	}
	if err := l.find(r); err != nil {
		return nil, err
	}
	var err error
	r.Reasons, err = incidenceOf(lives, r.Players)
	return r, err
}
