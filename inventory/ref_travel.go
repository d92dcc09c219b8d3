package inventory

import "strings"

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

// TripRef names a trip; case and outer blanks make no difference.
func TripRef(name string) Ref {
	return Ref(tripPrefix + strings.ToLower(strings.Join(strings.Fields(name), " ")))
}

// ShelfRef names the list of loose pieces of a kind: runners or holders.
func ShelfRef(kind Kind) Ref { return Ref(shelfPrefix + kind.String()) }

// shelvesOf names the shelves that pieces can lie on.
func shelvesOf(pieces ...Number) []Ref {
	var refs []Ref
	for _, n := range pieces {
		if kind := n.Kind(); kind == KindRunner || kind == KindHolder {
			refs = append(refs, ShelfRef(kind))
		}
	}
	return refs
}

// newEntityOfTravel is newEntity for these, or nil.
func newEntityOfTravel(ref Ref) Entity {
	switch text := string(ref); {
	case ref == RulesRef:
		return &Rules{}
	case ref == AwayRef:
		return &Away{}
	case ref == TripsRef:
		return &Trips{}
	case ref == KitsRef:
		return &Kits{}
	case strings.HasPrefix(text, tripPrefix):
		return &Trip{}
	case strings.HasPrefix(text, shelfPrefix):
		return &Shelf{}
	}
	return nil
}
