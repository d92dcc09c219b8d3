// Package roadtrip tells what belongs into the trunks of a trip, what is short, what a
// player who is called up needs, and what lies where at the season's end; pure.
package roadtrip

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
)

// Travellers lists the players of a squad who come along: those who were named, else
// everybody. Who was called up stands first, then it goes by sweater.
func Travellers(squad []sparepair.Player, trip *inventory.Trip) []sparepair.Player {
	comes := slices.DeleteFunc(slices.Clone(squad), func(p sparepair.Player) bool { return !trip.Comes(p.Number, true) })
	slices.SortStableFunc(comes, func(a, b sparepair.Player) int {
		return cmp.Compare(first(b.CalledUp), first(a.CalledUp))
	})
	return comes
}

func first(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// Shortage is something that should be in a trunk and is not, or is not fit to travel.
type Shortage struct {
	Sweater int
	Player  inventory.Number // zero: it is no player's
	Name    string           // of the player or the kit
	What    string           // spare pair, ready sets or kit
	Number  inventory.Number
	Place   inventory.Place // where it was last
	Why     string
	Have    int
	Want    int
}

// Short lists what should travel and is not packed: the spare pair of every traveller of
// a squad, as many ready sets as the club wants, and the kits.
func Short(v inventory.View, trip *inventory.Trip, squad []sparepair.Player, at time.Time) []Shortage {
	var short []Shortage
	for _, p := range Travellers(squad, trip) {
		if s, is := shortSpare(v, trip, p, at); is {
			short = append(short, s)
		}
		if s, is := shortSets(v, trip, p, at); is {
			short = append(short, s)
		}
	}
	for _, kit := range inventory.KitList(v) {
		if have := trip.KitCount(kit.Kit); have < kit.Least {
			short = append(short, Shortage{Name: kit.Kit, What: "kit", Have: have, Want: kit.Least, Why: fmt.Sprintf("%d of at least %d", have, kit.Least)})
		}
	}
	return short
}

// shortSpare tells whether a player's spare pair is not in, or not to be skated on.
func shortSpare(v inventory.View, trip *inventory.Trip, p sparepair.Player, at time.Time) (Shortage, bool) {
	short := Shortage{
		Sweater: p.Sweater, Player: p.Number, Name: p.Name, What: "spare pair", Number: p.Spare.Number, Place: p.Spare.Place, Want: 1,
	}
	cause := p.Spare.Cause()
	switch left, aboard := packed(v, trip, p.Spare.Number, at); {
	case p.Spare.State == sparepair.Missing:
		short.Why = cause.What
		return short, true
	case left != "":
		short.Why = "packed, and since then " + left
		return short, true
	case !aboard:
		short.Why = "not packed"
		return short, true
	case unsafeCause(cause):
		short.Why, short.Have = cause.What, 1
		return short, true
	}
	return Shortage{}, false
}

// unsafeCause tells whether a cause means that nobody may skate on the pair.
func unsafeCause(c sparepair.Cause) bool {
	return c.About != 0 && (c.Fix == sparepair.FixHolder || c.Fix == sparepair.FixSteel)
}

// shortSets tells whether fewer ready sets of a player are in than the club wants.
func shortSets(v inventory.View, trip *inventory.Trip, p sparepair.Player, at time.Time) (Shortage, bool) {
	short := Shortage{Sweater: p.Sweater, Player: p.Number, Name: p.Name, What: "ready sets", Want: sparepair.RulesOf(v, p.Number, at).Sets}
	for _, set := range p.Sets {
		if _, aboard := packed(v, trip, set.Number, at); aboard && set.State == sparepair.Ready {
			short.Have++
		}
	}
	short.Why = fmt.Sprintf("%d of %d", short.Have, short.Want)
	return short, short.Have < short.Want
}

// Stowed is one line of a manifest.
type Stowed struct {
	Number inventory.Number // zero: a kit
	What   string
	Owner  string // sweater and name
	Count  int
}

// Stowage is what is in one trunk; the zero number is what nobody named a trunk for.
type Stowage struct {
	Trunk inventory.Number
	Name  string
	In    []Stowed
}

// Manifest lists what is packed, trunk by trunk.
func Manifest(v inventory.View, trip *inventory.Trip, at time.Time) []Stowage {
	trunks := trip.Trunks()
	for _, n := range trip.Counted(inventory.LegOut, at) {
		if !slices.Contains(trunks, n) {
			trunks = append(trunks, n)
		}
	}
	var manifest []Stowage
	for _, n := range append(trunks, 0) {
		stowage := Stowage{Trunk: n, Name: "in no trunk", In: stowedIn(v, trip, n, at)}
		if n != 0 {
			stowage.Name = inventory.ContainerName(v, n)
		} else if len(stowage.In) == 0 {
			continue
		}
		manifest = append(manifest, stowage)
	}
	return manifest
}

func stowedIn(v inventory.View, trip *inventory.Trip, trunk inventory.Number, at time.Time) []Stowed {
	var in []Stowed
	for _, p := range Aboard(v, trip, at) {
		if p.Trunk == trunk {
			in = append(in, stowed(v, p.Piece, at))
		}
	}
	slices.SortStableFunc(in, func(a, b Stowed) int { return cmp.Compare(a.Number, b.Number) })
	for _, kit := range trip.Kits {
		if kit.Trunk == trunk {
			in = append(in, Stowed{What: kit.Kit, Count: kit.Count})
		}
	}
	return in
}

// stowed is a piece in words.
func stowed(v inventory.View, n inventory.Number, at time.Time) Stowed {
	line := Stowed{Number: n, What: n.Kind().String(), Count: 1}
	var owner inventory.Number
	switch state := v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Pair:
		line.What, owner = state.Role(at).Pair(), state.Player
	case *inventory.Set:
		line.What, owner = "set "+state.Letter, state.Player
	case *inventory.Holder:
		line.What = fmt.Sprintf("holder %s %d %s", state.Model, state.Size, state.SideOf())
	case *inventory.Runner:
		line.What = fmt.Sprintf("runner %s %d %s", state.Model, state.Size, state.SideAt(at))
	}
	if player, err := inventory.PlayerOf(v, owner); err == nil {
		line.Owner = player.Name
		if sweater := player.Sweater(at); sweater != 0 {
			line.Owner = fmt.Sprintf("%d %s", sweater, player.Name)
		}
	}
	return line
}

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
