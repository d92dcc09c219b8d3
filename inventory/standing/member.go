package standing

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

// Member is a player with his pairs and the steel that tells of his wear, at one instant.
type Member struct {
	*inventory.Player
	Earlier []*Steel  // done with, in order of first use
	Present []*Steel  // used, and on or ready
	Pairs   []*Skates // none of who has left
	On      OnPair    // the zero OnPair: none
	Ready   []ReadySet
	sets    map[inventory.Number]*Steel // all those above, by number
}

// Skates are a pair of boots with what is on it and what forbids skating on it.
type Skates struct {
	*inventory.Pair
	Role   inventory.Role
	Set    inventory.Number
	Unsafe []inventory.Damaged
	Never  bool // what is on was never ground
	Lacks  []Lack
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
	m := &Member{Player: p, sets: map[inventory.Number]*Steel{}}
	m.gatherSteel(v, at)
	if !p.Gone {
		m.gatherPairs(v, at)
		m.gatherReady(v, at)
	}
	return m, nil
}

// Steel is one of the sets that tell of a player's wear; nil where it is none of them.
func (m *Member) Steel(set inventory.Number) *Steel { return m.sets[set] }

// Steels are all of them.
func (m *Member) Steels() []*Steel { return slices.Concat(m.Earlier, m.Present) }

func (m *Member) gatherSteel(v inventory.View, at time.Time) {
	done := doneWith(m.Player, at)
	most := mostEarlier
	if m.Gone {
		most = mostOfGone
	}
	for _, used := range slices.Backward(m.Used.Until(at)) {
		if done[used.Value] && len(m.Earlier) >= most {
			continue
		}
		s := steelOf(v, m.Player, used.Value, at)
		s.First = used.When.Start
		m.sets[s.Number] = s
		if s.State == inventory.Removed {
			s.Last = s.lastMove(at)
			m.Earlier = append(m.Earlier, s)
		} else {
			m.Present = append(m.Present, s)
		}
	}
	slices.Reverse(m.Earlier)
	slices.Reverse(m.Present)
}

func (m *Member) gatherPairs(v inventory.View, at time.Time) {
	m.On, _ = SkatesOn(v, m.Player, at)
	for _, n := range m.Player.Pairs {
		pair, err := inventory.FindPair(v, n)
		if err != nil {
			continue
		}
		set, _ := inventory.FindSet(v, pair.SetAt(at))
		m.Pairs = append(m.Pairs, &Skates{Pair: pair, Role: pair.Role(at), Set: pair.SetAt(at), Unsafe: Forbidding(v, n, at), Never: NeverGround(set, at), Lacks: Lacking(v, m.Player, pair, at)})
	}
}

// SkatesOn are the skates that the player skates on; nil where there are none.
func (m *Member) SkatesOn() *Skates {
	for _, skates := range m.Pairs {
		if m.On.Pair != nil && skates.Number == m.On.Number {
			return skates
		}
	}
	return nil
}

// gatherReady lists the player's sets that could go on, those ground first.
func (m *Member) gatherReady(v inventory.View, at time.Time) {
	for _, lettered := range Kept(m.Player, at) {
		s := m.sets[lettered.Set]
		if s == nil {
			s = steelOf(v, m.Player, lettered.Set, at)
		}
		if s.State != inventory.Ready || !Skateable(v, at, s.Number) {
			continue
		}
		m.Ready = append(m.Ready, ReadySet{
			Set: s.Number, Letter: s.Letter, Ground: s.ground(at), Used: m.sets[s.Number] != nil, Place: PlaceOf(v, s.Number, at),
		})
	}
	slices.SortStableFunc(m.Ready, func(a, b ReadySet) int {
		return cmp.Or(firstTrue(a.Ground, b.Ground), firstTrue(a.Used, b.Used))
	})
}

// Kept lists a player's sets that he is not done with.
func Kept(player *inventory.Player, at time.Time) []inventory.Lettered {
	done := doneWith(player, at)
	return slices.DeleteFunc(slices.Clone(player.Sets), func(l inventory.Lettered) bool { return done[l.Set] })
}

// ReadySets lists a player's sets that are on nothing and not done with, safe or not.
func ReadySets(v inventory.View, player *inventory.Player, at time.Time) []*inventory.Set {
	var ready []*inventory.Set
	for _, lettered := range Kept(player, at) {
		set, err := inventory.FindSet(v, lettered.Set)
		if err == nil && SetState(v, set, at) == inventory.Ready {
			ready = append(ready, set)
		}
	}
	return ready
}

func doneWith(player *inventory.Player, at time.Time) map[inventory.Number]bool {
	done := map[inventory.Number]bool{}
	for _, set := range player.Done.Until(at) {
		done[set.Value] = true
	}
	return done
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

// enoughPlayers is from how many players the club's usual wear is learnt: what more of
// them would tell moves no forecast by a pass, and takes time to read.
const enoughPlayers = 40

// Whom lists the players to be gathered: everybody who is with the club and, while those
// are not enough, who left it, the last first.
func Whom(members []inventory.Member) []inventory.Number {
	var here, gone []inventory.Member
	for _, m := range members {
		if m.Gone {
			gone = append(gone, m)
		} else {
			here = append(here, m)
		}
	}
	slices.SortStableFunc(gone, func(a, b inventory.Member) int { return lastLeft(b).Compare(lastLeft(a)) })
	most := min(len(gone), max(0, enoughPlayers-len(here)))
	var list []inventory.Number
	for _, m := range slices.Concat(here, gone[:most]) {
		list = append(list, m.Player)
	}
	return list
}

// lastLeft is when a player left the club last.
func lastLeft(m inventory.Member) time.Time {
	for _, left := range slices.Backward(m.Leaves) {
		if left.Value {
			return left.When.Start
		}
	}
	return time.Time{}
}
