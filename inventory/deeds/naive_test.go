package deeds

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"steeltally/inventory"
)

// naive is a record written down in the plainest way: a list of what was done, and a
// world of maps that is made anew from the list whenever somebody asks. It shares
// nothing with the fold but the numbers.
type naive struct {
	done  []naiveAct
	pairs map[inventory.Number][]inventory.Number // of each player, the first pair first
	since time.Time                               // that they are his
}

// naiveAct is one accepted command: what it does to the world, or which acts it undoes.
type naiveAct struct {
	at     time.Time
	do     func(*world)
	alarm  func(all *[]*alarm, act int, at time.Time) // what it says of emergencies
	undoes []int
	events []inventory.Event // as recorded, for undoing
}

// world is where everything is and what was done to it.
type world struct {
	runners map[inventory.Number]*worldRunner
	holders map[inventory.Number]*worldHolder
	boots   map[worldSide]*worldBoot
	sets    map[inventory.Number]*worldSet
	marks   map[inventory.Number]*marked
	roles   map[inventory.Number]inventory.Role // of pairs
	pairs   map[inventory.Number][]inventory.Number
	alarms  []*alarm // all that was ever said of them
	at      time.Time
	wrong   []string // what can't have happened
}

// marked is what forbids to skate on a piece.
type marked struct{ cracked, suspect bool }

func (w *world) mark(n inventory.Number, how func(*marked)) {
	if n == 0 {
		return
	}
	if w.marks[n] == nil {
		w.marks[n] = &marked{}
	}
	how(w.marks[n])
}

// unsafe tells whether nobody may skate on a piece.
func (w *world) unsafe(n inventory.Number) bool {
	m := w.marks[n]
	return m != nil && (m.cracked || m.suspect)
}

type worldSide struct {
	pair inventory.Number
	side inventory.Side
}

type worldBoot struct{ holder, runner, set inventory.Number }

type worldHolder struct {
	side   inventory.Side
	on     worldSide // zero: on no boot
	runner inventory.Number
}

type worldRunner struct {
	side            inventory.Side
	set             inventory.Number
	on              worldSide        // zero: on no boot
	in              bool             // in a holder
	holder          inventory.Number // zero: nobody entered it
	retired         bool
	grinds, passes  int
	unknown, stints int
}

type worldSet struct {
	since       time.Time
	player      inventory.Number
	left, right inventory.Number
	broken      bool
	on          map[inventory.Side]inventory.Number // pairs
	retired     map[inventory.Side]bool
}

func (s *worldSet) runner(side inventory.Side) inventory.Number {
	return map[inventory.Side]inventory.Number{inventory.Left: s.left, inventory.Right: s.right}[side]
}

// voided tells which acts are undone by acts that are not undone themselves.
func (n *naive) voided() map[int]bool {
	void := map[int]bool{}
	for i, act := range slices.Backward(n.done) {
		for _, target := range act.undoes {
			if !void[i] {
				void[target] = true
			}
		}
	}
	return void
}

// worldAt is the world at an instant, by what is known now.
func (n *naive) worldAt(t time.Time) *world {
	w := &world{
		runners: map[inventory.Number]*worldRunner{}, holders: map[inventory.Number]*worldHolder{}, boots: map[worldSide]*worldBoot{}, sets: map[inventory.Number]*worldSet{},
		marks: map[inventory.Number]*marked{}, roles: map[inventory.Number]inventory.Role{}, pairs: n.pairs, alarms: n.alarms(), at: t,
	}
	void := n.voided()
	var acts []naiveAct
	if !n.since.After(t) {
		acts = append(acts, naiveAct{at: n.since, do: n.equip})
	}
	for i, act := range n.done {
		if !void[i] && act.do != nil && !act.at.After(t) {
			acts = append(acts, act)
		}
	}
	slices.SortStableFunc(acts, func(a, b naiveAct) int { return a.at.Compare(b.at) })
	for _, act := range acts {
		act.do(w)
	}
	return w
}

// equip gives the players their pairs.
func (n *naive) equip(w *world) {
	for _, pairs := range n.pairs {
		w.roles[pairs[0]], w.roles[pairs[1]] = "first", "spare"
	}
}

func (w *world) complain(format string, args ...any) {
	w.wrong = append(w.wrong, fmt.Sprintf(format, args...))
}

func (w *world) boot(at worldSide) *worldBoot {
	if w.boots[at] == nil {
		w.boots[at] = &worldBoot{}
	}
	return w.boots[at]
}

// match makes a set of two runners; another set that had one of them is one no more.
func (w *world) match(n, player, left, right inventory.Number) {
	for side, runner := range map[inventory.Side]inventory.Number{inventory.Left: left, inventory.Right: right} {
		r := w.runners[runner]
		if r == nil || r.in || r.side == side.Other() {
			w.complain("%s can't be matched", runner.Short())
			return
		}
		if was := w.sets[r.set]; was != nil {
			was.broken = true
		}
		r.side, r.set, r.retired = side, n, false
	}
	w.sets[n] = &worldSet{time.Time{}, player, left, right, false, map[inventory.Side]inventory.Number{}, map[inventory.Side]bool{}}
}

// put puts a set's runner of a side in.
func (w *world) put(set inventory.Number, at worldSide) {
	s := w.sets[set]
	if s == nil {
		w.complain("there is no set %s", set.Short())
		return
	}
	runner, boot := s.runner(at.side), w.boot(at)
	r := w.runners[runner]
	if r.in || boot.runner != 0 {
		w.complain("%s can't go on %v", runner.Short(), at)
		return
	}
	r.on, r.in, r.holder, r.set, r.side, r.retired = at, true, boot.holder, set, at.side, false
	r.stints++
	boot.runner, boot.set = runner, set
	s.on[at.side], s.retired[at.side] = at.pair, false
	if boot.holder != 0 {
		w.holders[boot.holder].runner = runner
	}
}

// take takes a runner out of whatever it is in.
func (w *world) take(runner inventory.Number, retired bool) {
	r := w.runners[runner]
	if r == nil || !r.in {
		w.complain("%s is in no holder", runner.Short())
		return
	}
	if r.on.pair != 0 {
		*w.boot(r.on) = worldBoot{holder: w.boot(r.on).holder}
	}
	if r.holder != 0 {
		w.holders[r.holder].runner = 0
	}
	if s := w.sets[r.set]; s != nil {
		s.on[r.side], s.retired[r.side] = 0, retired
	}
	r.on, r.in, r.holder, r.retired = worldSide{}, false, 0, retired
}

// rivetOn hangs a holder on a boot with what is in it.
func (w *world) rivetOn(holder, pair inventory.Number) {
	h := w.holders[holder]
	at := worldSide{pair, h.side}
	boot := w.boot(at)
	if h.on.pair != 0 || boot.holder != 0 || boot.runner != 0 {
		w.complain("%s can't go on %v", holder.Short(), at)
		return
	}
	h.on, boot.holder = at, holder
	if r := w.runners[h.runner]; r != nil {
		boot.runner, boot.set, r.on, r.side = h.runner, r.set, at, h.side
		w.sets[r.set].on[h.side], w.sets[r.set].retired[h.side] = pair, false
	}
}

// rivetOff takes a holder off its boot with what is in it.
func (w *world) rivetOff(holder inventory.Number) {
	h := w.holders[holder]
	if h.on.pair == 0 {
		w.complain("%s is on no boot", holder.Short())
		return
	}
	*w.boot(h.on) = worldBoot{}
	h.on = worldSide{}
	if r := w.runners[h.runner]; r != nil {
		r.on = worldSide{}
		w.sets[r.set].on[h.side], w.sets[r.set].retired[h.side] = 0, false
	}
}

// setOf is the set that a runner is in, or zero.
func (r *worldRunner) setOf() inventory.Number {
	if r == nil {
		return 0
	}
	return r.set
}

// state is where a runner is in its life.
func (r *worldRunner) state() inventory.State {
	switch {
	case r.on.pair != 0:
		return inventory.On
	case r.in:
		return inventory.InHolder
	case r.retired:
		return inventory.Removed
	case r.set != 0:
		return inventory.Ready
	}
	return inventory.InStock
}

// stateOf is that of a set, by what became of its runners.
func (w *world) stateOf(n inventory.Number) inventory.State {
	s, held := w.sets[n], false
	for _, r := range w.runners {
		held = held || r.set == n && r.in
	}
	switch {
	case s.on[inventory.Left] != 0 || s.on[inventory.Right] != 0:
		return inventory.On
	case s.broken || s.retired[inventory.Left] || s.retired[inventory.Right]:
		return inventory.Removed
	case held:
		return inventory.InHolder
	}
	return inventory.Ready
}

// cracked tells whether a piece is broken for good.
func (w *world) cracked(n inventory.Number) bool { return w.marks[n] != nil && w.marks[n].cracked }

// holderNumbers are those that there are, in order.
func (w *world) holderNumbers() []inventory.Number { return slices.Sorted(maps.Keys(w.holders)) }
