package inventory

import (
	"cmp"
	"slices"
	"time"
)

// ClockSets are how clocks were set right, as far as that counts: nothing voids it.
type ClockSets struct{ all []clockSet }

// clockSet is one of them; its stretches of sequences are in order and apart.
type clockSet struct {
	of        Writer
	by        time.Duration
	stretches []stretch
}

type stretch struct{ first, last uint64 }

// mostSet is more than a clock that shows one of the years of a record can be wrong by.
const mostSet = (MostYear + 1 - LeastYear) * 366 * 24 * 3600 // seconds

// Add adds one that counts.
func (s *ClockSets) Add(b *ClockSet) {
	if -mostSet <= b.By && b.By <= mostSet {
		s.all = append(s.all, clockSet{b.Of, time.Duration(b.By) * time.Second, b.stretches()})
	}
}

// stretches are the sequences in order; what is out of order is left out.
func (b *ClockSet) stretches() []stretch {
	var list []stretch
	next := uint64(1)
	for _, run := range b.Entries {
		last := run.First + run.Count - 1
		if run.First >= next && run.Count > 0 && last >= run.First && last < ^uint64(0) {
			next = last + 1
			list = append(list, stretch{run.First, last})
		}
	}
	return list
}

func (c *clockSet) has(sequence uint64) bool {
	i, found := slices.BinarySearchFunc(c.stretches, sequence, func(s stretch, sequence uint64) int { return cmp.Compare(s.first, sequence) })
	return found || i > 0 && sequence <= c.stretches[i-1].last
}

// By is how much later an entry was noted, and happened, than its writer's clock said.
func (s *ClockSets) By(key Key) (by time.Duration) {
	for i := range s.all {
		if s.all[i].of == key.Writer && s.all[i].has(key.Sequence) {
			by += s.all[i].by
		}
	}
	return by
}

// Timed is an event at the time at which it happened by a right clock. The event itself is
// not changed.
func (s *ClockSets) Timed(e *Event) *Event {
	by := s.By(e.Key)
	if by == 0 {
		return e
	}
	timed := *e
	timed.Noted, timed.Happened = e.Noted.Add(by), e.Happened.later(by)
	if !timed.InYears() {
		return e
	}
	return &timed
}

// later is the time moved by a while; an unknown one stays unknown.
func (w When) later(by time.Duration) When {
	if w.Unknown() {
		return w
	}
	return When{w.Start.Add(by), w.End.Add(by)}
}

// Each calls visit with the sequences that are meant, up to the writer's last one, until
// visit fails.
func (b *ClockSet) Each(last uint64, visit func(sequence uint64) error) error {
	for _, s := range b.stretches() {
		for sequence := s.first; sequence <= min(s.last, last); sequence++ {
			if err := visit(sequence); err != nil {
				return err
			}
		}
	}
	return nil
}
