package outlook

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// The kinds of sessions in the numbers of package wear.
const (
	practice = iota
	game
	sessionKinds
)

// Which passes count for which session; common practice, no source. Steel is ground
// before a session or during a game; who was not at the wheel for days was away.
const (
	practiceLasts = 90 * time.Minute
	gameLasts     = 3 * time.Hour
	lookBack      = 120 * 24 * time.Hour // older sessions tell little of today's
	away          = 3 * 24 * time.Hour
	ahead         = 36 * time.Hour // before a session, at most
)

// held is a session that is over.
type held struct {
	start, end time.Time
	kind       int
}

// heldSessions lists the sessions that were over at an instant, not too long ago.
func heldSessions(v inventory.View, at time.Time) []held {
	var list []held
	for _, s := range inventory.Sessions(v, at.Add(-lookBack), at) {
		h := held{s.When.Start, s.When.Start.Add(practiceLasts), practice}
		if s.Value.Game {
			h.kind, h.end = game, s.When.Start.Add(gameLasts)
		}
		if h.end.Before(at) {
			list = append(list, h)
		}
	}
	return list
}

// ground is one work at the wheel on one set.
type ground struct {
	at     time.Time
	passes *int // nil: nobody counted
}

// groundOn lists, in order, the works on what was on a pair when they were done.
func groundOn(m *standing.Member, pair inventory.Number, at time.Time) []ground {
	var list []ground
	for _, s := range m.Steels() {
		runners := s.Runners()
		if len(runners) == 0 {
			continue
		}
		for _, work := range runners[0].Works.Until(at) {
			start := work.When.Start
			if work.Value.Set != s.Number || !work.When.Exact() || at.Sub(start) > lookBack {
				continue
			}
			if s.PairAt(start) == pair {
				list = append(list, ground{start, work.Value.Passes})
			}
		}
	}
	slices.SortFunc(list, func(a, b ground) int { return a.at.Compare(b.at) })
	return list
}

// samples are the passes of each session that the player skated on a pair, by kind; 0
// where he skated without a grind.
func samples(sessions []held, works []ground) [sessionKinds][]float64 {
	var found [sessionKinds][]float64
	next := 0
	for _, s := range sessions {
		for next < len(works) && s.start.Sub(works[next].at) > ahead {
			next++ // for no session that is in the schedule
		}
		first := next
		for next < len(works) && !works[next].at.After(s.end) {
			next++
		}
		if passes, known := passesOf(works[first:next]); known && skated(works, next, s) {
			found[s.kind] = append(found[s.kind], passes)
		}
	}
	return found
}

// passesOf adds up works; false where some were not counted.
func passesOf(works []ground) (passes float64, known bool) {
	for _, w := range works {
		if w.passes == nil {
			return 0, false
		}
		passes += float64(*w.passes)
	}
	return passes, true
}

// skated tells whether the player was at the wheel about a session; next is the first
// work after it.
func skated(works []ground, next int, s held) bool {
	before := next > 0 && s.start.Sub(works[next-1].at) < away
	after := next < len(works) && works[next].at.Sub(s.end) < away
	return before || after
}

// costs are the passes that a session of each kind takes of a player, pooled with the
// other players'. Where nothing tells of one kind, all sessions count as alike.
func costs(c wear.Constants, own [sessionKinds][]float64, others [][sessionKinds][]float64) ([]wear.SessionPasses, error) {
	list := make([]wear.SessionPasses, sessionKinds)
	var missing []int
	for kind := range sessionKinds {
		cost, err := c.PoolSessions(own[kind], ofKind(others, kind))
		if err != nil {
			missing = append(missing, kind)
		}
		list[kind] = cost
	}
	if len(missing) == 0 {
		return list, nil
	}
	alike, err := c.PoolSessions(slices.Concat(own[:]...), together(others))
	for _, kind := range missing {
		list[kind] = alike
	}
	return list, err
}

func ofKind(players [][sessionKinds][]float64, kind int) [][]float64 {
	list := make([][]float64, len(players))
	for i, p := range players {
		list[i] = p[kind]
	}
	return list
}

func together(players [][sessionKinds][]float64) [][]float64 {
	list := make([][]float64, len(players))
	for i, p := range players {
		list[i] = slices.Concat(p[:]...)
	}
	return list
}
