package travel

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Aboard lists what is in a trip's trunks: what was packed, but not what was put elsewhere
// or given away since. What a trip's own scans say of a trunk, a later one of its place
// can say, too.
func Aboard(v inventory.View, trip *inventory.Trip, at time.Time) []inventory.PackedPiece {
	var aboard []inventory.PackedPiece
	for _, p := range trip.Pieces {
		if in, left := whereabouts(v, trip, p, at); left == "" && !in.When.After(at) {
			aboard = append(aboard, in)
		}
	}
	return aboard
}

// packed tells whether a piece is in a trip's trunks; where it was packed and has left its
// trunk, left says where it went.
func packed(v inventory.View, trip *inventory.Trip, n inventory.Number, at time.Time) (left string, aboard bool) {
	in, found := trip.In(n)
	if !found || in.When.After(at) {
		return "", false
	}
	_, left = whereabouts(v, trip, in, at)
	return left, left == ""
}

// whereabouts follows a piece, and the runners of a set, from where it was packed until an
// instant of the trip.
func whereabouts(v inventory.View, trip *inventory.Trip, in inventory.PackedPiece, at time.Time) (_ inventory.PackedPiece, left string) {
	if end := unpackedFrom(trip); end.Before(at) {
		at = end
	}
	if set, ok := v.Entity(inventory.RefOf(in.Piece)).(*inventory.Set); ok {
		if standing.SetState(v, set, at) == inventory.On {
			return in, "put on"
		}
		for _, runner := range []inventory.Number{set.Left, set.Right} {
			if _, left := follow(v, trip, in, runner, at); left != "" {
				return in, runner.Short() + " " + left
			}
		}
	}
	in.Trunk, left = follow(v, trip, in, in.Piece, at)
	return in, left
}

// unpackedFrom is when a trip's trunks are unpacked: once they are counted back, else when
// its last day is over. What is put away from then on was along.
func unpackedFrom(trip *inventory.Trip) time.Time {
	end := trip.To.End
	if len(trip.Back) > 0 && trip.Back[0].When.Start.Before(end) {
		return trip.Back[0].When.Start
	}
	return end
}

// follow tells in which trunk a piece is that was packed, or where it went since.
func follow(v inventory.View, trip *inventory.Trip, in inventory.PackedPiece, n inventory.Number, at time.Time) (trunk inventory.Number, left string) {
	marks := inventory.MarksOf(v, n)
	if marks.ScrappedAt(at) {
		return in.Trunk, "thrown away"
	}
	for _, custody := range slices.Backward(marks.Custodies.Until(at)) {
		if !since(custody.When, custody.Event, in) {
			continue
		}
		if !custody.Value.Ours() {
			return in.Trunk, custody.Value.String()
		}
		break
	}
	for _, place := range slices.Backward(marks.Places.Until(at)) {
		if !since(place.When, place.Event, in) {
			continue // of one day, an entry without its hour stands first
		}
		for _, trunk := range append([]inventory.Number{in.Trunk}, trip.Trunks()...) {
			if trunk != 0 && inventory.SameName(inventory.ContainerName(v, trunk), place.Value.Name) {
				return trunk, ""
			}
		}
		return in.Trunk, "put at " + place.Value.String()
	}
	return in.Trunk, ""
}

func since(when inventory.When, event inventory.Key, in inventory.PackedPiece) bool {
	return event != in.Event && inventory.IsSince(when, event, in.When, in.Event)
}
