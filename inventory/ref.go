package inventory

import (
	"fmt"
	"strings"
	"time"
	"unicode"
)

// Ref names one thing that the record keeps a state of: a numbered piece or player
// ("1000042744"), a model ("model/R 280"), a month of the schedule
// ("schedule/2025-11"), a counter of given numbers ("given/1/0"), the roster or the club.
type Ref string

const (
	ClubRef   Ref = "club"   // the club itself
	RosterRef Ref = "roster" // the list of its players
)

const (
	modelPrefix    = "model/"
	schedulePrefix = "schedule/"
	givenPrefix    = "given/"
)

// longestRef keeps a ref with what an engine adds inside of what a key can be.
const longestRef = 1 << 10

// isName tells whether a ref can stand for a thing: one with a control character in it
// would be taken for a part of what is kept of another thing.
func (r Ref) isName() bool {
	return r != "" && len(r) <= longestRef && strings.IndexFunc(string(r), unicode.IsControl) < 0
}

// RefOf names a numbered piece or player.
func RefOf(n Number) Ref { return Ref(n.String()) }

// ModelRef names a model; case and outer blanks make no difference.
func ModelRef(name string) Ref {
	return Ref(modelPrefix + strings.ToLower(strings.Join(strings.Fields(name), " ")))
}

// ScheduleRef names the month of the schedule that an instant falls in (in UTC).
func ScheduleRef(t time.Time) Ref { return Ref(schedulePrefix + t.UTC().Format("2006-01")) }

// GivenRef names the counter of the numbers that one kind has got at one station.
func GivenRef(kind Kind, station int) Ref {
	return Ref(fmt.Sprintf("%s%d/%d", givenPrefix, kind, station))
}

// Number is the number that a ref names, or zero where it names something else.
func (r Ref) Number() Number {
	if len(r) != numberDigits || !allDigits(string(r)) {
		return 0
	}
	n, err := ParseNumber(string(r))
	if err != nil {
		return 0
	}
	return n
}

// The things that stand for the whole club in what concerns spare pairs and trips.
const (
	RulesRef Ref = "rules" // when a spare pair counts as ready
	AwayRef  Ref = "away"  // pieces that somebody else had
	TripsRef Ref = "trips" // the list of trips
	KitsRef  Ref = "kits"  // what travels that is not steel
)

const (
	tripPrefix  = "trip/"
	shelfPrefix = "shelf/"
)

// ShelfRef names the list of loose pieces of a kind: runners or holders.
func ShelfRef(kind Kind) Ref { return Ref(shelfPrefix + kind.String()) }

// numbered names the pieces among some numbers, leaving out zeros.
func numbered(numbers ...Number) []Ref {
	refs := make([]Ref, 0, len(numbers)+2)
	for _, n := range numbers {
		if n != 0 {
			refs = append(refs, RefOf(n))
		}
	}
	return refs
}
