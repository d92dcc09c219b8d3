package outlook

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
)

// How many of a player's earlier sets are looked at, the latest: more change a forecast
// little and take time to read. Of one who left only the club learns.
const (
	mostEarlier = 6
	mostOfGone  = 3
)

// Member is a player with the steel that tells of his wear, at one instant.
type Member struct {
	*inventory.Player
	sets    map[inventory.Number]*steel // all those below, by number
	earlier []*steel                    // done with, in order of first use
	present []*steel                    // used, and on or ready
	pairs   []*rig
	ready   []ReadySet
}

// rig is a pair of boots with what nobody may skate on of it.
type rig struct {
	*inventory.Pair
	role   string
	set    inventory.Number
	unsafe []inventory.Damaged
}

// ReadySet is a set that could go on.
type ReadySet struct {
	Set    inventory.Number
	Letter string
	Ground bool
	Used   bool
	Place  inventory.Place
}

// Gather reads what tells of a player's wear, until an instant. One who left the club
// is read too: his history informs the others'.
func Gather(v inventory.View, player inventory.Number, at time.Time) (*Member, error) {
	p, err := inventory.PlayerOf(v, player)
	if err != nil {
		return nil, err
	}
	m := &Member{Player: p, sets: map[inventory.Number]*steel{}}
	m.gatherSteel(v, at)
	if !p.Gone {
		m.gatherRigs(v, at)
		m.gatherReady(v, at)
	}
	return m, nil
}

func (m *Member) gatherSteel(v inventory.View, at time.Time) {
	done := map[inventory.Number]bool{}
	for _, set := range m.Done.Until(at) {
		done[set.Value] = true
	}
	most := mostEarlier
	if m.Gone {
		most = mostOfGone
	}
	for _, used := range slices.Backward(m.Used.Until(at)) {
		if done[used.Value] && len(m.earlier) >= most {
			continue
		}
		s := m.steelOf(v, used.Value)
		s.first = used.When.Start
		m.sets[s.number] = s
		if s.state(at) == inventory.Removed {
			s.last = s.lastMove(at)
			m.earlier = append(m.earlier, s)
		} else {
			m.present = append(m.present, s)
		}
	}
	slices.Reverse(m.earlier)
	slices.Reverse(m.present)
}

func (m *Member) gatherRigs(v inventory.View, at time.Time) {
	for _, n := range m.Pairs {
		pair, err := inventory.FindPair(v, n)
		if err != nil {
			continue
		}
		r := &rig{Pair: pair, role: pair.Role(at), set: pair.SetAt(at)}
		marks := []*inventory.Marks{&pair.Marks}
		for _, side := range sides() {
			if holder, err := inventory.FindHolder(v, pair.HolderAt(side, at)); err == nil {
				marks = append(marks, &holder.Marks)
			}
			if s := m.sets[r.set]; s != nil && s.runner(side) != nil {
				marks = append(marks, &s.runner(side).Marks)
			}
		}
		r.unsafe = unsafe(marks, at)
		m.pairs = append(m.pairs, r)
	}
}

// unsafe lists why nobody may skate on some pieces.
func unsafe(marks []*inventory.Marks, at time.Time) []inventory.Damaged {
	var found []inventory.Damaged
	for _, m := range marks {
		for _, damage := range m.OpenDamages(at) {
			if damage.Unsafe {
				found = append(found, damage)
			}
		}
	}
	return found
}

// gatherReady lists the player's sets that could go on, those ground first.
func (m *Member) gatherReady(v inventory.View, at time.Time) {
	for _, lettered := range m.Sets {
		s := m.sets[lettered.Set]
		if s == nil && !m.wasUsed(lettered.Set) {
			s = m.steelOf(v, lettered.Set)
		}
		if s == nil || s.state(at) != inventory.Ready || s.unsafe(at) {
			continue
		}
		m.ready = append(m.ready, ReadySet{
			Set: s.number, Letter: s.letter, Ground: s.ground(at), Used: m.sets[s.number] != nil, Place: s.left.Place(at),
		})
	}
	slices.SortStableFunc(m.ready, func(a, b ReadySet) int {
		return cmp.Or(firstTrue(a.Ground, b.Ground), firstTrue(a.Used, b.Used))
	})
}

func (m *Member) wasUsed(set inventory.Number) bool {
	return slices.ContainsFunc(m.Used, func(u inventory.Dated[inventory.Number]) bool { return u.Value == set })
}

// firstTrue sorts what is so before what is not.
func firstTrue(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// firstPair is the player's first pair, or nil.
func (m *Member) firstPair() *rig {
	for _, r := range slices.Backward(m.pairs) {
		if r.role == firstRole {
			return r
		}
	}
	return nil
}

const firstRole = "first"
