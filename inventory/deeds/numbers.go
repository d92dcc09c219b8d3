package deeds

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"steeltally/inventory"
)

// latestGiven is the highest running number given to a kind at a station.
func latestGiven(v inventory.View, kind inventory.Kind, station int) int {
	if given, ok := v.Entity(inventory.GivenRef(kind, station)).(*inventory.Given); ok {
		return given.Highest
	}
	return 0
}

// firstFree is where count new numbers begin: after the highest that was given. Where none
// are left there, because a single high number came in, it is the widest stretch of
// numbers that nothing has.
func firstFree(v inventory.View, kind inventory.Kind, station, count int) int {
	first := latestGiven(v, kind, station) + 1
	if first+count-1 <= inventory.MaxRunning {
		return first
	}
	taken := []inventory.Span{{First: inventory.MaxRunning + 1}}
	if given, ok := v.Entity(inventory.GivenRef(kind, station)).(*inventory.Given); ok {
		taken = append(taken, given.Blank...)
	}
	v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
		if n.Station() == station {
			taken = append(taken, inventory.Span{First: n.Running(), Count: 1})
		}
		return true
	})
	slices.SortFunc(taken, func(a, b inventory.Span) int { return cmp.Compare(a.First, b.First) })
	next, widest := 1, 0
	for _, span := range taken {
		if width := span.First - next; width > widest {
			first, widest = next, width
		}
		next = max(next, span.First+span.Count)
	}
	return first
}

// nextNumbers are count new numbers of a kind at this folder's station. A copy that was
// not given a digit of its own is told of each time.
func nextNumbers(v inventory.View, kind inventory.Kind, count int, out *Outcome) ([]inventory.Number, error) {
	club := inventory.ClubOf(v)
	station := club.StationOf(v.Writer())
	switch {
	case !station.Known:
		return nil, stationUnknown(club, "say it first: steeltally club --station DIGIT; a digit of a folder that is still in use is not yours")
	case !station.Own && len(club.Stations) > 0:
		out.tell(fmt.Sprintf("this folder gives numbers as station %d, and so does the folder that it was copied from", station.Digit),
			fmt.Sprintf("where that one stays in use: steeltally club --station DIGIT; where it is gone: steeltally club --station %d", station.Digit))
	}
	first := firstFree(v, kind, station.Digit, count)
	numbers := make([]inventory.Number, count)
	for i := range numbers {
		n, err := inventory.NewNumber(kind, station.Digit, first+i)
		if err != nil {
			return nil, inventory.Refuse(fmt.Sprintf("station %d has no %s numbers left", station.Digit, kind), "give this station another digit: steeltally club --station DIGIT")
		}
		numbers[i] = n
	}
	return numbers, nil
}

func stationUnknown(club *inventory.Club, hint string) error {
	return inventory.Refuse(fmt.Sprintf("this folder is a copy or was rebuilt, and could be any of the stations %s", inventory.SayDigits(club.Digits())), hint)
}

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
