package desk

import (
	"errors"
	"math"
	"runtime"
	"sync"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/outlook"
	"steeltally/inventory/standing"
)

// learnt is what the club's steel teaches of wear, at an instant or not long before.
func (d *Desk) learnt(at time.Time) (*standing.Learnt, error) {
	if known := d.options.Learnt; known != nil {
		if learnt := known(); learnt != nil {
			return learnt, nil
		}
	}
	if d.knows != nil && d.knows.At.Sub(at).Abs() < knownFor {
		return d.knows, nil
	}
	l := Learning{at: at}
	if err := d.learnMore(&l, math.MaxInt); err != nil {
		return nil, err
	}
	learnt, err := l.learnt()
	d.knows = learnt
	return learnt, err
}

// knownFor is how long what was learnt is as good as learnt anew: what one reading changes
// in it moves no height by what a caliper shows, and steel itself is looked at each time.
const knownFor = 6 * time.Hour

// look learns from the club's steel as it was at an instant.
func (d *Desk) look(at time.Time) (*outlook.Outlook, error) {
	l := Learning{at: at}
	if err := d.learnMore(&l, math.MaxInt); err != nil {
		return nil, err
	}
	return l.Outlook()
}

// calledIn is what the roster calls a player.
func calledIn(members []inventory.Member, player inventory.Number, at time.Time) (name string, sweater int) {
	for _, m := range members {
		if m.Player == player {
			sweater, _ = m.Sweaters.At(at)
			return m.Name, sweater
		}
	}
	return "", 0
}

// gather reads the players' steel, a share of it on each processor: reading states
// takes most of a look. It tells whose could not be read.
func (d *Desk) gather(players []inventory.Number, at time.Time) ([]*standing.Member, []inventory.Unworked, error) {
	members := make([]*standing.Member, len(players))
	failed := make([]error, len(players))
	aside := d.unsafeAsides().damages()
	shares := max(1, min(runtime.GOMAXPROCS(0), len(players)))
	errs := make([]error, shares)
	var readers sync.WaitGroup
	for share := range shares {
		readers.Go(func() {
			errs[share] = d.book.Read(func(v inventory.View) error {
				for i := share; i < len(players); i += shares {
					failed[i] = inventory.Guard(func() (err error) {
						members[i], err = standing.Gather(inventory.Suspecting(v, aside), players[i], at)
						return err
					})
				}
				return nil
			})
		})
	}
	readers.Wait()
	if err := errors.Join(errs...); err != nil {
		return nil, nil, err
	}
	var gathered []*standing.Member
	var ungathered []inventory.Unworked
	for i, err := range failed {
		if err != nil {
			ungathered = append(ungathered, inventory.Unworked{About: players[i], Cause: err})
		} else {
			gathered = append(gathered, members[i])
		}
	}
	return gathered, ungathered, nil
}
