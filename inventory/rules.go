package inventory

import (
	"slices"
	"time"
)

// Rules are the thresholds that the club set for spare pairs, and for some players.
type Rules struct {
	Club    Timeline[SpareRules] `json:"club,omitempty"`
	Players []PlayerRules        `json:"players,omitempty"`
}

// PlayerRules are the thresholds of one player.
type PlayerRules struct {
	Player Number               `json:"player"`
	Rules  Timeline[SpareRules] `json:"rules"`
}

// Apply folds one event.
func (r *Rules) Apply(e *Event) {
	b, ok := e.Body.(*RulesNoted)
	if !ok {
		return
	}
	if b.Player == 0 {
		r.Club.add(e, b.SpareRules)
		return
	}
	at := slices.IndexFunc(r.Players, func(p PlayerRules) bool { return p.Player == b.Player })
	if at < 0 {
		at, r.Players = len(r.Players), append(r.Players, PlayerRules{Player: b.Player})
	}
	r.Players[at].Rules.add(e, b.SpareRules)
}

// SpareRulesAt is what was set for a player at an instant: for himself, else for the
// club. What is nil nobody ever set.
func SpareRulesAt(v View, player Number, at time.Time) SpareRules {
	var now SpareRules
	rules, ok := v.Entity(RulesRef).(*Rules)
	if !ok {
		return now
	}
	for _, entry := range rules.Club.Until(at) {
		now.take(entry.Value)
	}
	for _, own := range rules.Players {
		for _, entry := range own.Rules.Until(at) {
			if own.Player == player {
				now.take(entry.Value)
			}
		}
	}
	return now
}

// take takes over what newer rules say.
func (r *SpareRules) take(newer SpareRules) {
	r.HeightWithin = newerOf(r.HeightWithin, newer.HeightWithin)
	r.TriedDays = newerOf(r.TriedDays, newer.TriedDays)
	r.LookedDays = newerOf(r.LookedDays, newer.LookedDays)
	r.Sets = newerOf(r.Sets, newer.Sets)
	r.Minutes = append(slices.Clip(r.Minutes), newer.Minutes...)
}

// Takes is how many minutes the club says that a fix takes; the last word counts.
func (r SpareRules) Takes(fix string) (int, bool) {
	for _, time := range slices.Backward(r.Minutes) {
		if time.Fix == fix {
			return time.Minutes, true
		}
	}
	return 0, false
}
