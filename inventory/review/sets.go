package review

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
)

// WornSet is a set that is done with: its left and right runner, as far as they are there.
type WornSet struct {
	Left, Right *Life
	Place       int // in the order in which the player's sets here came off, from 1
	In, Out     inventory.When
}

// lives are the runners that are there.
func (s *WornSet) lives() []*Life {
	var list []*Life
	for _, life := range []*Life{s.Left, s.Right} {
		if life != nil {
			list = append(list, life)
		}
	}
	return list
}

// together tells whether its runners were ground in this set only: a partner is whom a
// runner was ground with.
func (s *WornSet) together() bool {
	return !slices.ContainsFunc(s.lives(), func(l *Life) bool { return l.elsewhere })
}

// Broke tells whether the set came off because something broke.
func (s *WornSet) Broke() bool {
	return slices.ContainsFunc(s.lives(), (*Life).BrokenOff)
}

// wornSets puts a player's runners that are done with back together as sets, in the
// order in which they came off. The record says which belong together; of tags it is
// the left and the right one that went in and came off on the same days.
func wornSets(lives []*Life) []*WornSet {
	var sets []*WornSet
	for _, life := range inOrder(lives) {
		if life.InUse || !life.Steel() {
			continue
		}
		if mate := mateOf(sets, life); mate != nil {
			mate.put(life)
			continue
		}
		s := &WornSet{In: life.In, Out: life.Out}
		s.put(life)
		sets = append(sets, s)
	}
	for i, s := range sets {
		s.Place = i + 1
	}
	return sets
}

// inOrder sorts lives by the day off, then the day in.
func inOrder(lives []*Life) []*Life {
	sorted := slices.Clone(lives)
	slices.SortStableFunc(sorted, func(a, b *Life) int {
		return cmp.Or(a.Out.Compare(b.Out), a.In.Compare(b.In), cmp.Compare(a.Place, b.Place), cmp.Compare(a.Number, b.Number))
	})
	return sorted
}

// put lays a runner on its side; one that has no side yet goes where there is room.
func (s *WornSet) put(life *Life) {
	if life.Side == inventory.Right || life.Side == "" && s.Left != nil {
		s.Right = life
		return
	}
	s.Left = life
}

func mateOf(sets []*WornSet, life *Life) *WornSet {
	for _, s := range slices.Backward(sets) {
		if s.room(life) && s.belongs(life) {
			return s
		}
	}
	return nil
}

func (s *WornSet) room(life *Life) bool {
	switch life.Side {
	case inventory.Left:
		return s.Left == nil
	case inventory.Right:
		return s.Right == nil
	}
	return s.Left == nil || s.Right == nil
}

// belongs tells whether a runner is the mate of the one that is there.
func (s *WornSet) belongs(life *Life) bool {
	other := s.lives()[0]
	if other.Set != 0 && life.Set != 0 {
		return other.Set == life.Set
	}
	return sameDay(other.Out, life.Out) && sameDay(other.In, life.In)
}

// sameDay compares two times as vague as they are; of unknown ones nothing is said.
func sameDay(a, b inventory.When) bool {
	return !a.Unknown() && !b.Unknown() && a.Start.Sub(b.Start).Abs() < 24*time.Hour && (a.Exact() || b.Exact() || a.End.Equal(b.End))
}
