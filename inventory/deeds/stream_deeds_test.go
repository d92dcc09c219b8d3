package deeds

import (
	"maps"
	"slices"
	"time"

	"steeltally/inventory"
)

// choose makes a random attempt on a world. Now and then it makes no sense at all.
func (s *stream) choose(w *world) attempt {
	switch s.random.IntN(24) {
	case 0:
		return s.stockRunners(1 + s.random.IntN(3))
	case 1, 2:
		return s.matching(w)
	case 3, 4:
		return s.puttingIn(w)
	case 5:
		return s.takingOut(w)
	case 6, 7:
		return s.changing(w)
	case 8:
		return s.takingOneOut(w)
	case 9:
		return s.rivetingOn(w)
	case 10:
		return s.rivetingOff(w)
	case 11, 12:
		return s.grinding(w)
	case 13:
		return s.damaging(w)
	case 14, 15, 16:
		return s.alarming(w)
	case 17, 18:
		return s.ending(w)
	case 19:
		return s.closing(w)
	case 20, 21:
		return s.looking(w)
	case 22:
		if s.random.IntN(3) == 0 {
			return s.swapping()
		}
	}
	return s.undoing()
}

// among is a random one of some, or 0 where there is none.
func among[T any](s *stream, some []T) (one T) {
	if len(some) == 0 {
		return one
	}
	return some[s.random.IntN(len(some))]
}

// one is a random key of a map.
func anyOf[T any](s *stream, m map[inventory.Number]T) inventory.Number {
	return among(s, slices.Sorted(maps.Keys(m)))
}

// next is the number that a kind gets next, by the naive count of what was given.
func (s *stream) next(kind inventory.Kind) inventory.Number {
	highest := 0
	for _, act := range s.model.done {
		for _, e := range act.events {
			for _, n := range inventory.NumbersOf(&e) {
				if n.Kind() == kind {
					highest = max(highest, n.Running())
				}
			}
		}
	}
	n, _ := inventory.NewNumber(kind, 1, highest+1)
	return n
}

func (s *stream) stockRunners(count int) attempt {
	first := s.next(inventory.KindRunner)
	deed := StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: count}
	return attempt{deed: deed, possible: true, do: func(w *world) {
		for i := range count {
			n, _ := inventory.NewNumber(inventory.KindRunner, 1, first.Running()+i)
			w.runners[n] = &worldRunner{}
		}
	}}
}

func (s *stream) stockHolders(side inventory.Side) attempt {
	n := s.next(inventory.KindHolder)
	deed := StockIn{Piece: inventory.KindHolder, Model: "Model H", Size: 280, Side: side, Count: 1}
	return attempt{deed: deed, possible: true, do: func(w *world) { w.holders[n] = &worldHolder{side: side} }}
}

func (s *stream) matching(w *world) attempt {
	set, player := s.next(inventory.KindSet), among(s, s.players)
	left, right := anyOf(s, w.runners), anyOf(s, w.runners)
	fine := func(n inventory.Number, side inventory.Side) bool {
		r := w.runners[n]
		return r != nil && !r.in && !w.unsafe(n) && r.side != side.Other()
	}
	since := w.at
	is := w.sets[w.runners[left].setOf()]
	again := is != nil && is.player == player && is.left == left && is.right == right && !is.broken && w.stateOf(w.runners[left].setOf()) != inventory.Removed && w.at.Sub(is.since) <= 24*time.Hour
	return attempt{
		deed:     MakeSet{Player: player, Left: left, Right: right},
		possible: !again && left != right && fine(left, inventory.Left) && fine(right, inventory.Right) && s.lettersLeft(w, player),
		do:       func(w *world) { w.match(set, player, left, right); w.sets[set].since = since },
	}
}

func (s *stream) lettersLeft(w *world, player inventory.Number) bool {
	live := 0
	for n, set := range w.sets {
		if set.player == player && w.stateOf(n) != inventory.Removed {
			live++
		}
	}
	return live < 26
}

// pairFor is one of a player's two pairs.
func (s *stream) pairFor(player inventory.Number) inventory.Number {
	return s.pairs[2*slices.Index(s.players, player)+s.random.IntN(2)]
}

// missing lists the sides of a set that are not on a pair; fine is false where the set
// can't go on it.
func missing(w *world, n, player, pair inventory.Number) (sides []inventory.Side, fine bool) {
	set := w.sets[n]
	if set == nil || set.player != player || set.broken {
		return nil, false
	}
	for _, side := range inventory.Sides() {
		r := w.runners[set.runner(side)]
		onIt := set.on[side] == pair
		if w.unsafe(set.runner(side)) || set.on[side] != 0 && !onIt || r.in && !onIt {
			return nil, false
		}
		if !onIt {
			sides = append(sides, side)
		}
	}
	return sides, len(sides) > 0
}

// free tells whether steel can go into a boot once what is in it is out.
func (w *world) free(at worldSide, emptied bool) bool {
	boot := w.boot(at)
	return (boot.runner == 0 || emptied) && !w.unsafe(boot.holder)
}

func (s *stream) puttingIn(w *world) attempt {
	set := anyOf(s, w.sets)
	player := among(s, s.players)
	if known := w.sets[set]; known != nil && s.random.IntN(8) > 0 {
		player = known.player
	}
	named, pair := s.meant(w, player)
	sides, possible := missing(w, set, player, pair)
	possible = possible && pair != 0
	for _, side := range sides {
		possible = possible && w.free(worldSide{pair, side}, false)
	}
	return attempt{deed: PutSetIn{Player: player, Set: set, Pair: named}, possible: possible, do: func(w *world) {
		for _, side := range sides {
			w.put(set, worldSide{pair, side})
		}
	}}
}

// removal is a runner that comes off, and whether it is done with.
type removal struct {
	runner  inventory.Number
	retired bool
}

// removals is what comes off a pair for a reason, by the rules of the trade.
func (w *world) removals(pair inventory.Number, sides []inventory.Side, reason inventory.Reason) []removal {
	bySet := map[inventory.Number][]removal{}
	var sets []inventory.Number
	for _, side := range sides {
		if boot := w.boot(worldSide{pair, side}); boot.runner != 0 {
			bySet[boot.set] = append(bySet[boot.set], removal{boot.runner, w.unsafe(boot.runner)})
			if !slices.Contains(sets, boot.set) {
				sets = append(sets, boot.set)
			}
		}
	}
	var all []removal
	for _, set := range sets {
		some := bySet[set]
		known := slices.ContainsFunc(some, func(r removal) bool { return r.retired })
		for _, r := range some {
			switch {
			case reason == "rotate":
				r.retired = false
			case reason == "low" || !known:
				r.retired = true
			}
			all = append(all, r)
		}
	}
	return all
}

func takeAll(w *world, all []removal) {
	for _, r := range all {
		w.take(r.runner, r.retired)
	}
}

func (s *stream) takingOut(w *world) attempt {
	player := among(s, s.players)
	named, pair := s.meant(w, player)
	reason := among(s, []inventory.Reason{"low", "rotate", "broken", "broken"})
	side := among(s, []inventory.Side{"", "", inventory.Left, inventory.Right})
	sides := inventory.Sides()
	if side != "" {
		sides = []inventory.Side{side}
	}
	all := w.removals(pair, sides, reason)
	deed := TakeOut{Player: player, Pair: named, Side: side, Reason: reason}
	return attempt{deed: deed, possible: len(all) > 0, do: func(w *world) { takeAll(w, all) }}
}

func (s *stream) changing(w *world) attempt {
	set := anyOf(s, w.sets)
	player := among(s, s.players)
	if known := w.sets[set]; known != nil {
		player = known.player
	}
	named, pair := s.meant(w, player)
	reason := among(s, []inventory.Reason{"low", "rotate", "broken"})
	all := w.removals(pair, inventory.Sides(), reason)
	sides, possible := missing(w, set, player, pair)
	possible = possible && len(all) > 0 && len(sides) == 2
	for _, side := range sides {
		possible = possible && w.free(worldSide{pair, side}, true)
	}
	deed := ChangeSteel{TakeOut{Player: player, Pair: named, Reason: reason}, set}
	return attempt{deed: deed, possible: possible, do: func(w *world) {
		takeAll(w, all)
		for _, side := range sides {
			w.put(set, worldSide{pair, side})
		}
	}}
}

func (s *stream) takingOneOut(w *world) attempt {
	n, reason := anyOf(s, w.runners), among(s, []inventory.Reason{"low", "rotate"})
	known := w.runners[n]
	return attempt{deed: TakeRunnerOut{Runner: n, Reason: reason}, possible: known != nil && known.in, do: func(w *world) {
		w.take(n, reason == "low")
	}}
}

func (s *stream) rivetingOn(w *world) attempt {
	n, pair := anyOf(s, w.holders), among(s, s.pairs)
	for range 4 { // most come from another boot, with what is in them
		if h := w.holders[n]; h == nil || h.on.pair != 0 || h.runner == 0 {
			n = anyOf(s, w.holders)
		}
	}
	h := w.holders[n]
	if h == nil {
		return s.stockHolders(inventory.Left)
	}
	boot := w.boot(worldSide{pair, h.side})
	possible := !w.unsafe(n) && h.on.pair == 0 && boot.holder == 0 && boot.runner == 0 && !w.unsafe(h.runner)
	return attempt{deed: RivetOn{Holder: n, Pair: pair}, possible: possible, do: func(w *world) { w.rivetOn(n, pair) }}
}

func (s *stream) rivetingOff(w *world) attempt {
	n := anyOf(s, w.holders)
	h := w.holders[n]
	return attempt{deed: RivetOff{n}, possible: h != nil && h.on.pair != 0, do: func(w *world) { w.rivetOff(n) }}
}

// grinding is a grind of what is on a pair; the passes are the usual five, said ones,
// or unknown.
func (s *stream) grinding(w *world) attempt {
	player := among(s, s.players)
	named, pair := s.meant(w, player)
	deed := Grind{Player: player, Pair: named}
	count, known := 5, true
	switch s.random.IntN(4) {
	case 0:
		deed.Unknown, known = true, false
	case 1:
		deed.Work = "hone"
	}
	var ground []inventory.Number
	possible := true
	for _, side := range inventory.Sides() {
		if n := w.boot(worldSide{pair, side}).runner; n != 0 {
			ground = append(ground, n)
			possible = possible && !w.unsafe(n)
		}
	}
	return attempt{deed: deed, possible: possible && len(ground) > 0, do: func(w *world) {
		for _, n := range ground {
			w.runners[n].work(deed.Work == "hone", known, count)
		}
	}}
}

func (r *worldRunner) work(hone, known bool, count int) {
	switch {
	case hone:
	case known:
		r.grinds, r.passes = r.grinds+1, r.passes+count
	default:
		r.grinds, r.unknown = r.grinds+1, r.unknown+1
	}
}

func (s *stream) damaging(w *world) attempt {
	if s.random.IntN(3) == 0 {
		n := anyOf(s, w.holders)
		return attempt{deed: ReportDamage{Piece: n, Mode: "crack"}, possible: n != 0 && !w.cracked(n), do: func(w *world) { w.mark(n, func(m *marked) { m.cracked = true }) }}
	}
	n := anyOf(s, w.runners)
	for range 6 { // most break in use
		if r := w.runners[n]; r == nil || !r.in {
			n = anyOf(s, w.runners)
		}
	}
	return attempt{deed: ReportDamage{Piece: n, Mode: "break"}, possible: n != 0 && !w.cracked(n), do: func(w *world) { w.mark(n, func(m *marked) { m.cracked = true }) }}
}

// undoing takes back one of the acts, mostly a late one; whether that can be the model
// leaves open, but not what it comes to.
func (s *stream) undoing() attempt {
	last := len(s.model.done) - 1
	target := max(0, last-s.random.IntN(1+s.random.IntN(last+1)))
	if s.model.voided()[target] {
		return s.stockRunners(1)
	}
	return attempt{deed: Undo{Events: s.model.done[target].events}, undoes: []int{target}, open: true}
}
