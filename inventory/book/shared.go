package book

import (
	"bytes"
	"os"
	"sync"
	"sync/atomic"

	"steeltally/inventory"
)

// shared is what the looks at one open book have in common, so that the second look at
// a piece costs a thousandth of the first. The states in it are never changed.
type shared struct {
	file    *os.File // book.db, beside bbolt; nil while a book is being made
	recents atomic.Pointer[recentsKept]
	head    atomic.Pointer[headKept]

	mutex  sync.Mutex
	events uint64 // the state of the book that the states are of
	states map[inventory.Ref]inventory.Entity
}

// headKept is a head as it was stored, and read.
type headKept struct {
	stored []byte
	head   head
}

// readHead decodes a stored head, or knows it already.
func (s *shared) readHead(value []byte) (head, error) {
	kept := s.head.Load()
	if kept != nil && bytes.Equal(kept.stored, value) {
		return kept.head, nil
	}
	h, err := decodeHead(value)
	if err == nil {
		s.head.Store(&headKept{bytes.Clone(value), h})
	}
	return h, err
}

// state gives the state of a thing when the book had so many events, if it is known.
func (s *shared) state(events uint64, ref inventory.Ref) inventory.Entity {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if s.events != events {
		return nil
	}
	return s.states[ref]
}

// keep remembers a state for others who look.
func (s *shared) keep(events uint64, ref inventory.Ref, state inventory.Entity) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if s.states == nil || s.events < events || len(s.states) >= mostHeld {
		s.states = map[inventory.Ref]inventory.Entity{}
		s.events = events
	}
	if s.events == events {
		s.states[ref] = state
	}
}

// advance forgets what a transaction has touched.
func (s *shared) advance(before, events uint64, touched map[inventory.Ref]bool) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if s.events != before {
		clear(s.states)
	}
	for ref := range touched {
		delete(s.states, ref)
	}
	s.events = events
}
