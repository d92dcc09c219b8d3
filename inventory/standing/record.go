package standing

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// Role is what one role's steel teaches, goalkeepers' or skaters'.
type Role struct {
	wear.Knowledge
	kinds   *Kinds
	players map[inventory.Number]int // the place in the record
	record  wear.Record
}

// recordOf orders the steel of some players.
func recordOf(members []*Member, at time.Time) *Role {
	r := &Role{kinds: NewKinds(), players: map[inventory.Number]int{}}
	for _, m := range members {
		r.players[m.Number] = len(r.record.Players)
		var pairs []wear.Pair
		for _, s := range m.Earlier {
			pairs = append(pairs, r.earlierPairs(m, s, at)...)
		}
		r.record.Players = append(r.record.Players, pairs)
		for _, s := range m.Present {
			var present wear.Pair
			if s.Left != nil {
				present.Left, _ = r.kinds.Runner(s.Left, at)
			}
			if s.Right != nil {
				present.Right, _ = r.kinds.Runner(s.Right, at)
			}
			r.record.Present = append(r.record.Present, present)
		}
	}
	r.record.Kinds = r.kinds.List()
	return r
}

// earlierPairs is a set that is done with: one pair, or two of one runner each where they
// were not ground together. A runner that lives on in another set counts there.
func (r *Role) earlierPairs(m *Member, s *Steel, at time.Time) []wear.Pair {
	pair := wear.Pair{In: days(s.First), Out: days(s.Last)}
	if change := m.SpecsAt(s.Last).ChangeHeight; change != nil {
		pair.Change = *change
	}
	if s.Left != nil && s.Left.SetAt(at) == s.Number {
		pair.Left, _ = r.kinds.Runner(s.Left, at)
	}
	if s.Right != nil && s.Right.SetAt(at) == s.Number {
		pair.Right, _ = r.kinds.Runner(s.Right, at)
	}
	if s.together(at) {
		return []wear.Pair{pair}
	}
	left, right := pair, pair
	left.Right, right.Left = wear.Runner{}, wear.Runner{}
	return []wear.Pair{left, right}
}

// days counts days from a common start.
func days(t time.Time) float64 { return float64(t.Unix()) / (24 * 60 * 60) }

// player is a player's place in the record; one who is not in it is a stranger.
func (r *Role) player(n inventory.Number) int {
	if place, ok := r.players[n]; ok {
		return place
	}
	return wear.Stranger
}

// PriorOf is what is known of a player's wear before his steel is measured.
func (r *Role) PriorOf(n inventory.Number) (wear.Prior, error) { return r.Pool.Prior(r.player(n)) }

// EarlierRunners counts a player's earlier runners whose heights tell something.
func (r *Role) EarlierRunners(n inventory.Number) int {
	place, ok := r.players[n]
	if !ok {
		return 0
	}
	count := 0
	for _, pair := range r.record.Players[place] {
		for _, runner := range []wear.Runner{pair.Left, pair.Right} {
			if runner.Tells() {
				count++
			}
		}
	}
	return count
}
