package outlook

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// role is a record of the steel of one role, with where each set went in it.
type role struct {
	record  wear.Record
	kinds   *kinds
	players map[inventory.Number]int // by player: the place in the record
	inUse   map[inventory.Number]use // by set
}

// use is a set in use as package wear asks for it.
type use struct {
	left, right wear.InUse
	series      inventory.Both[inventory.Series]
}

// recordOf orders the steel of some players.
func recordOf(members []*Member, at time.Time) *role {
	r := &role{kinds: newKinds(), players: map[inventory.Number]int{}, inUse: map[inventory.Number]use{}}
	for _, m := range members {
		r.players[m.Number] = len(r.record.Players)
		var pairs []wear.Pair
		for _, s := range m.earlier {
			pairs = append(pairs, r.earlierPair(m, s, at))
		}
		r.record.Players = append(r.record.Players, pairs)
		for _, s := range m.present {
			in := r.use(s, at)
			r.inUse[s.number] = in
			r.record.Present = append(r.record.Present, wear.Pair{Left: in.left.Runner, Right: in.right.Runner})
		}
	}
	r.record.Kinds = r.kinds.list()
	return r
}

// earlierPair is a set that is done with. A runner that lives on in another set counts
// there.
func (r *role) earlierPair(m *Member, s *steel, at time.Time) wear.Pair {
	pair := wear.Pair{In: days(s.first), Out: days(s.last)}
	if change := m.SpecsAt(s.last).ChangeHeight; change != nil {
		pair.Change = *change
	}
	if s.left != nil && s.left.SetAt(at) == s.number {
		pair.Left, _ = r.runner(s.left, at)
	}
	if s.right != nil && s.right.SetAt(at) == s.number {
		pair.Right, _ = r.runner(s.right, at)
	}
	return pair
}

func (r *role) use(s *steel, at time.Time) use {
	var u use
	for _, side := range sides() {
		runner := s.runner(side)
		if runner == nil {
			continue
		}
		plain, series := r.runner(runner, at)
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

// runner is a runner's telling series as package wear reads it.
func (r *role) runner(runner *inventory.Runner, at time.Time) (wear.Runner, inventory.Series) {
	series := tellingSeries(runner, at)
	plain := wear.Runner{Kind: r.kinds.number(runner, series)}
	for _, stretch := range series.Stretches {
		if !stretch.New && len(stretch.Readings) == 0 {
			continue
		}
		s := wear.Stretch{New: stretch.New}
		for _, worn := range stretch.Readings {
			s.Readings = append(s.Readings, wear.Reading{Passes: float64(worn.Passes), Height: worn.Height})
		}
		plain.Stretches = append(plain.Stretches, s)
	}
	return plain, series
}

// tellingSeries is the reference of which more is known: passes all counted since the
// last height, then more heights, then heights over more passes.
func tellingSeries(r *inventory.Runner, at time.Time) inventory.Series {
	loose, fitted := r.Series(inventory.Loose, at), r.Series(inventory.Fitted, at)
	if fitted.Readings() == 0 {
		return loose
	}
	if loose.SinceUnknown != fitted.SinceUnknown {
		if loose.SinceUnknown {
			return fitted
		}
		return loose
	}
	if a, b := loose.Readings(), fitted.Readings(); a != b {
		if a > b {
			return loose
		}
		return fitted
	}
	if spanOf(loose) > spanOf(fitted) {
		return loose
	}
	return fitted
}

// spanOf is how many counted passes lie behind the readings of a series.
func spanOf(s inventory.Series) int {
	span := 0
	for _, stretch := range s.Stretches {
		if n := len(stretch.Readings); n > 0 {
			span += stretch.Readings[n-1].Passes
			if !stretch.New {
				span -= stretch.Readings[0].Passes
			}
		}
	}
	return span
}

// days counts days from a common start.
func days(t time.Time) float64 { return float64(t.Unix()) / (24 * 60 * 60) }
