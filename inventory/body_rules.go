package inventory

import "steeltally/geometry"

// RulesNoted says when a spare pair counts as ready, for the club or for one player,
// from a day on. What is nil stays as it was.
type RulesNoted struct {
	Player Number `json:"player,omitempty"` // zero: the club
	SpareRules
}

// SpareRules are the thresholds of a ready spare pair; what is nil was never said.
type SpareRules struct {
	HeightWithin *geometry.Millimetre `json:"height_within_mm,omitempty"` // of the first pair
	TriedDays    *int                 `json:"tried_days,omitempty"`       // a try counts so long
	LookedDays   *int                 `json:"looked_days,omitempty"`      // a look at bolts and rivets counts so long
	Sets         *int                 `json:"sets,omitempty"`             // ready sets that travel with a player
	Minutes      []FixTime            `json:"minutes,omitempty"`
}

// FixTime is how many minutes a club takes to mend one sort of thing.
type FixTime struct {
	Fix     string `json:"fix"`
	Minutes int    `json:"minutes"`
}

// Kind is the word in the record.
func (*RulesNoted) Kind() string { return "rules" }

// Touches names the rules.
func (*RulesNoted) Touches() []Ref { return []Ref{RulesRef} }
