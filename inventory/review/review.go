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
}

// Span is the time that a review is about.
type Span struct{ From, Until time.Time }

// Compile tells what lives come to. Who names a player and tells goalkeepers from
// skaters.
func Compile(lives []*Life, who func(inventory.Number) (string, bool), span Span, c wear.Constants) (*Review, error) {
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
