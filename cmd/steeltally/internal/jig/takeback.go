package jig

import (
	"errors"
	"slices"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// mostMine is how many actions of its own a bench remembers to take back.
const mostMine = 20

// Keep remembers what was recorded from here, or drops what was taken back.
func (s *State) Keep(done desk.Done) {
	switch {
	case len(done.Events) == 0 || slices.ContainsFunc(done.Events, settlesClock):
		return
	case len(done.Back) > 0:
		s.forget(done)
		return
	}
	keys, n := done.Keys(), len(s.Mine)
	if slices.ContainsFunc(s.Mine, func(mine []inventory.Key) bool { return slices.Equal(mine, keys) }) {
		return // told of a second time
	}
	s.Mine = append(slices.Clone(s.Mine[max(0, n+1-mostMine):]), keys)
}

// settlesClock tells whether an event says that the clock stood right: that is no work of
// the bench, and u is about what was done before it.
func settlesClock(e inventory.Event) bool {
	_, settles := e.Body.(*inventory.ClockRight)
	return settles
}

// forget drops the actions that something took back.
func (s *State) forget(done desk.Done) {
	var voided []inventory.Key
	for i := range done.Events {
		voided = append(voided, inventory.Voids(&done.Events[i])...)
	}
	s.Mine = slices.DeleteFunc(slices.Clone(s.Mine), func(mine []inventory.Key) bool {
		return slices.ContainsFunc(mine, func(key inventory.Key) bool { return slices.Contains(voided, key) })
	})
}

// TakeBack takes back the last action that was recorded from here and not taken back
// yet, whoever recorded something elsewhere since; where there is none, the book's last.
func (s *State) TakeBack(d *desk.Desk) (desk.Done, error) {
	var last desk.Correction
	if n := len(s.Mine); n > 0 {
		for _, key := range s.Mine[n-1] {
			last.Keys = append(last.Keys, key.String())
		}
	}
	done, err := d.Correct(last)
	var elsewhere *desk.TakenBackError
	if errors.As(err, &elsewhere) {
		s.Mine = s.Mine[:max(0, len(s.Mine)-1)]
	}
	return done, err
}
