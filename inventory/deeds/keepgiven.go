package deeds

import (
	"maps"
	"slices"

	"steeltally/inventory"
)

// KeepGiven keeps the numbers up to the highest that counters are known to have given,
// where the record has only a part of them: their pieces wear their tags.
func KeepGiven(v inventory.View, highest map[inventory.Ref]int, happened inventory.When) []inventory.Draft {
	var drafts []inventory.Draft
	for _, ref := range slices.Sorted(maps.Keys(highest)) {
		kind, station, ok := inventory.CounterNamed(ref)
		latest := latestGiven(v, kind, station)
		if until := min(highest[ref], inventory.MaxRunning); ok && until > latest {
			drafts = append(drafts, inventory.Draft{Happened: happened, Body: &inventory.Reserved{
				Piece: kind.String(), Station: station, First: latest + 1, Count: until - latest,
			}})
		}
	}
	return drafts
}
