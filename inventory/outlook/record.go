package outlook

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
	"steeltally/inventory/worn"
)

// role is a record of the steel of one role, with where each set went in it.
type role struct {
	record  wear.Record
	kinds   *worn.Kinds
	players map[inventory.Number]int // by player: the place in the record
	inUse   map[inventory.Number]use // by set
}

// use is a set in use as package wear asks for it.
type use struct {
	left, right wear.InUse
	series      inventory.Both[inventory.Series]
	together    bool // its runners were ground in no other set
}

// recordOf orders the steel of some players.
func recordOf(members []*Member, at time.Time) *role {
	r := &role{kinds: worn.NewKinds(), players: map[inventory.Number]int{}, inUse: map[inventory.Number]use{}}
	for _, m := range members {
		r.players[m.Number] = len(r.record.Players)
		var pairs []wear.Pair
		for _, s := range m.earlier {
			pairs = append(pairs, r.earlierPairs(m, s, at)...)
		}
		r.record.Players = append(r.record.Players, pairs)
		for _, s := range m.present {
			in := r.use(s, at)
			r.inUse[s.number] = in
			r.record.Present = append(r.record.Present, wear.Pair{Left: in.left.Runner, Right: in.right.Runner})
		}
	}
	r.record.Kinds = r.kinds.List()
	return r
}

// earlierPairs is a set that is done with: one pair, or two of one runner each where they
// were not ground together. A runner that lives on in another set counts there.
func (r *role) earlierPairs(m *Member, s *steel, at time.Time) []wear.Pair {
	pair := wear.Pair{In: days(s.first), Out: days(s.last)}
	if change := m.SpecsAt(s.last).ChangeHeight; change != nil {
		pair.Change = *change
	}
	if s.left != nil && s.left.SetAt(at) == s.number {
		pair.Left, _ = r.kinds.Runner(s.left, at)
	}
	if s.right != nil && s.right.SetAt(at) == s.number {
		pair.Right, _ = r.kinds.Runner(s.right, at)
	}
	if s.together(at) {
		return []wear.Pair{pair}
	}
	left, right := pair, pair
	left.Right, right.Left = wear.Runner{}, wear.Runner{}
	return []wear.Pair{left, right}
}

func (r *role) use(s *steel, at time.Time) use {
	u := use{together: s.together(at)}
	for _, side := range sides() {
		runner := s.runner(side)
		if runner == nil {
			continue
		}
		plain, series := r.kinds.Runner(runner, at)
		in := wear.InUse{Runner: plain, Since: float64(series.Since), SinceUnknown: series.SinceUnknown}
		if side == inventory.Left {
			u.left = in
		} else {
			u.right = in
		}
		u.series.Put(side, &series)
	}
	return u
}

// days counts days from a common start.
func days(t time.Time) float64 { return float64(t.Unix()) / (24 * 60 * 60) }
