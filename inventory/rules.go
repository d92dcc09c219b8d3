package inventory

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/geometry"
)

// RulesNoted says when a spare pair counts as ready, for the club or for one player,
// from a day on. What is nil stays as it was.
type RulesNoted struct {
	Player Number `json:"player,omitempty"` // zero: the club
	SpareRules
}

// Kind is the word in the record.
func (*RulesNoted) Kind() string { return "rules" }

// Touches names the rules.
func (*RulesNoted) Touches() []Ref { return []Ref{RulesRef} }

func (b *RulesNoted) line(Teller, *Event) string { return "spare pairs: " + b.String() }

// SpareRules are the thresholds of a ready spare pair; what is nil was never said.
type SpareRules struct {
	HeightWithin *geometry.Millimetre `json:"height_within_mm,omitempty"` // of the first pair
	TriedDays    *int                 `json:"tried_days,omitempty"`       // a try counts so long
	LookedDays   *int                 `json:"looked_days,omitempty"`      // a look at bolts and rivets counts so long
	Sets         *int                 `json:"sets,omitempty"`             // ready sets that travel with a player
	Minutes      []FixTime            `json:"minutes,omitempty"`
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

// String is what was set, in words.
func (r SpareRules) String() string {
	var parts []string
	if r.HeightWithin != nil {
		parts = append(parts, "height within "+r.HeightWithin.String())
	}
	if r.TriedDays != nil {
		parts = append(parts, fmt.Sprintf("tried within %d days", *r.TriedDays))
	}
	if r.LookedDays != nil {
		parts = append(parts, fmt.Sprintf("looked at within %d days", *r.LookedDays))
	}
	if r.Sets != nil {
		parts = append(parts, fmt.Sprintf("%d ready sets", *r.Sets))
	}
	for _, fix := range r.Minutes {
		parts = append(parts, fmt.Sprintf("%s %d min", fix.Fix, fix.Minutes))
	}
	return OrDash(clipName(strings.Join(parts, ", ")))
}

// FixTime is how many minutes a club takes to mend one sort of thing.
type FixTime struct {
	Fix     string `json:"fix"`
	Minutes int    `json:"minutes"`
}

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
