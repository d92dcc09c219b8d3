package deeds

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// alarm is an emergency as a person with a sheet of paper has it: what was said of one side
// within a game is one, whoever says it again.
type alarm struct {
	acts     []int // that said so, by their place in what was done
	player   inventory.Number
	at       worldSide
	since    time.Time
	suspects []inventory.Number
	ended    *time.Time
	closed   *time.Time
	with     inventory.Number // the pair that he went on with; zero: it is none of that
	forNow   bool             // what broke is still to be mended
}

// open tells whether something of it waits at an instant.
func (a *alarm) open(t time.Time) bool {
	if a.closed != nil && !a.closed.After(t) {
		return false
	}
	return a.since.Compare(t) <= 0 && (!a.over(t) || a.forNow)
}

// over tells whether he was back on the ice.
func (a *alarm) over(t time.Time) bool { return a.ended != nil && !a.ended.After(t) }

// alarms replays what was said of emergencies in the order in which it was said.
func (n *naive) alarms() (all []*alarm) {
	void := n.voided()
	for i, act := range n.done {
		if act.alarm != nil && !void[i] {
			act.alarm(&all, i, act.at)
		}
	}
	return all
}

// aboutAct is the emergency that an act began or said more of; nil: that was taken back.
func aboutAct(all []*alarm, act int) *alarm {
	for _, a := range all {
		if slices.Contains(a.acts, act) {
			return a
		}
	}
	return nil
}

// skates is the pair that a player skates on: the one that he went on with last while that
// is not over and it is no first pair; else his first.
func (w *world) skates(player inventory.Number, t time.Time) inventory.Number {
	var last *alarm
	for _, a := range w.alarms {
		if a.player == player && a.open(t) && a.over(t) && a.with != 0 && (last == nil || !a.ended.Before(*last.ended)) {
			last = a
		}
	}
	if last != nil && slices.Contains(w.pairs[player], last.with) && (w.roles[last.with] == "spare" || w.roles[last.with] == "third") {
		return last.with
	}
	return w.inRole(player, "first")
}

// inRole is the player's pair of a role that was added last, or zero.
func (w *world) inRole(player inventory.Number, role inventory.Role) inventory.Number {
	for _, pair := range slices.Backward(w.pairs[player]) {
		if w.roles[pair] == role {
			return pair
		}
	}
	return 0
}

// meant is a pair as it is named in a deed, zero where nobody names one, and the pair that
// is meant.
func (s *stream) meant(w *world, player inventory.Number) (named, pair inventory.Number) {
	if s.random.IntN(2) == 0 {
		return 0, w.skates(player, w.at)
	}
	pair = s.pairFor(player)
	return pair, pair
}

// What is counted beside the deeds: that somebody skates on another pair for the moment, and
// that something of that one breaks.
const (
	forTheMoment   = "for the moment"
	secondBreakage = "second breakage"
)

// alarming is something that broke on a side: it is said what, or nobody has looked.
func (s *stream) alarming(w *world) attempt {
	player := among(s, s.players)
	named, pair := s.meant(w, player)
	at := worldSide{pair, among(s, inventory.Sides())}
	boot := w.boot(at)
	deed := CallEmergency{Player: player, Pair: named, Side: at.side, Broke: among(s, []string{"", "", BrokeHolder, BrokeRunner})}
	a := alarm{player: player, at: at, since: w.at}
	broken := map[string]inventory.Number{BrokeHolder: boot.holder, BrokeRunner: boot.runner}[deed.Broke]
	if deed.Broke == BrokeHolder {
		deed.Mode = "crack"
	} else if deed.Broke == BrokeRunner {
		deed.Mode = "break"
	} else if !w.unsafe(boot.holder) && !w.unsafe(boot.runner) {
		a.suspects = slices.DeleteFunc([]inventory.Number{boot.holder, boot.runner}, func(n inventory.Number) bool { return n == 0 })
	}
	known, also := w.cracked(broken), ""
	if named == 0 && pair != w.inRole(player, "first") {
		also = secondBreakage
	}
	return attempt{
		deed: deed, exact: true, also: also, possible: pair != 0 && (boot.holder != 0 || boot.runner != 0) && (deed.Broke == "" || broken != 0),
		do: func(w *world) {
			for _, n := range a.suspects {
				w.mark(n, func(m *marked) { m.suspect = true })
			}
			if !known { // else the damage was noted before
				w.mark(broken, func(m *marked) { m.cracked = true })
			}
		},
		alarm: func(all *[]*alarm, act int, _ time.Time) {
			for _, running := range *all {
				if running.player == player && running.at == at && running.ended == nil && running.closed == nil && running.since.Sub(a.since).Abs() < 3*time.Hour {
					running.acts, running.suspects = append(running.acts, act), append(running.suspects, a.suspects...)
					return
				}
			}
			one := a
			one.acts = []int{act}
			*all = append(*all, &one)
		},
	}
}

// ending is how a player got back on the ice: with another pair, or otherwise.
func (s *stream) ending(w *world) attempt {
	player := among(s, s.players)
	deed := EndEmergency{Player: player, Did: among(s, []inventory.Remedy{"spare", "spare", "spare", "mended", "nothing"}), Broke: among(s, []string{"", "nothing"})}
	with := inventory.Number(0)
	if deed.Did == "spare" {
		if with = w.inRole(player, "spare"); s.random.IntN(2) == 0 {
			with = s.pairFor(player)
			deed.With = []inventory.Number{with}
		}
	}
	var over *alarm
	for _, a := range w.alarms {
		if a.player == player && a.ended == nil && !a.since.After(w.at) && (over == nil || !a.since.Before(over.since)) {
			over = a
		}
	}
	if over == nil {
		return attempt{deed: deed, exact: true}
	}
	act, suspects := over.acts[0], slices.Clone(over.suspects)
	deed.Sure = slices.Clone(suspects)
	suspects = slices.DeleteFunc(suspects, func(n inventory.Number) bool { return w.marks[n] != nil && w.marks[n].cracked })
	return attempt{
		deed: deed, exact: true, possible: deed.Did != "spare" || with != 0 && w.roles[with] != "first" && with != over.at.pair,
		do: func(w *world) {
			for _, n := range suspects {
				if deed.Broke == "nothing" {
					w.mark(n, func(m *marked) { m.suspect = false })
				}
			}
		},
		alarm: func(all *[]*alarm, _ int, at time.Time) {
			if a := aboutAct(*all, act); a != nil {
				a.ended, a.with, a.forNow = &at, with, deed.Did == "spare"
			}
		},
	}
}

// closing says that all is mended for good: he is back on his first pair.
func (s *stream) closing(w *world) attempt {
	player := among(s, s.players)
	var acts []int
	for _, a := range w.alarms {
		if a.player == player && a.open(w.at) {
			acts = append(acts, a.acts[0])
		}
	}
	return attempt{deed: CloseEmergency{Player: player}, exact: true, possible: len(acts) > 0, alarm: func(all *[]*alarm, _ int, at time.Time) {
		for _, act := range acts {
			if a := aboutAct(*all, act); a != nil {
				a.closed = &at
			}
		}
	}}
}

// looking finds what may have broken sound, on a piece or on all of a pair.
func (s *stream) looking(w *world) attempt {
	n := among(s, []inventory.Number{anyOf(s, w.runners), anyOf(s, w.holders), among(s, s.pairs)})
	pieces := []inventory.Number{n}
	for _, side := range inventory.Sides() {
		if boot := w.boot(worldSide{n, side}); n.Kind() == inventory.KindPair {
			pieces = append(pieces, boot.holder, boot.runner)
		}
	}
	broken := slices.ContainsFunc(pieces, func(n inventory.Number) bool { return w.marks[n] != nil && w.marks[n].cracked })
	return attempt{deed: Inspect{Piece: n, Sound: true, Sure: pieces}, exact: true, possible: n != 0 && !broken, do: func(w *world) {
		for _, n := range pieces {
			w.mark(n, func(m *marked) { m.suspect = false })
		}
	}}
}

// swapping gives a pair another role; whether that is allowed the model leaves open.
func (s *stream) swapping() attempt {
	pair, role := among(s, s.pairs), among(s, inventory.Roles())
	return attempt{deed: GiveRole{pair, role}, open: true, do: func(w *world) { w.roles[pair] = role }}
}

// comparePlayers holds the pair that each player skates on against the naive one.
func (s *stream) comparePlayers(w *world, t time.Time) {
	s.t.Helper()
	for _, n := range s.players {
		player, err := inventory.PlayerOf(&s.Ledger, n)
		if err != nil {
			s.t.Fatal(err)
		}
		on, err := standing.SkatesOn(&s.Ledger, player, t)
		got := inventory.Number(0)
		if err == nil {
			got = on.Number
		}
		if want := w.skates(n, t); got != want {
			s.t.Errorf("%s skates on %s, want %s", n.Short(), got.Short(), want.Short())
		}
		if on.Moment != nil {
			s.accepted[forTheMoment]++
		}
	}
}
