package travel

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
)

// Travellers lists the players of a squad who come along: those who were named, else
// everybody. Who was called up stands first, then it goes by sweater.
func Travellers(squad []Player, trip *inventory.Trip) []Player {
	comes := slices.DeleteFunc(slices.Clone(squad), func(p Player) bool { return !trip.Comes(p.Number, true) })
	slices.SortStableFunc(comes, func(a, b Player) int {
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
func Short(v inventory.View, trip *inventory.Trip, squad []Player, at time.Time) []Shortage {
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
func shortSpare(v inventory.View, trip *inventory.Trip, p Player, at time.Time) (Shortage, bool) {
	short := Shortage{
		Sweater: p.Sweater, Player: p.Number, Name: p.Name, What: "spare pair", Number: p.Spare.Number, Place: p.Spare.Place, Want: 1,
	}
	cause := p.Spare.Cause()
	switch left, aboard := packed(v, trip, p.Spare.Number, at); {
	case p.Spare.State == Missing:
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
func unsafeCause(c Cause) bool {
	return c.About != 0 && (c.Fix == FixHolder || c.Fix == FixSteel)
}

// shortSets tells whether fewer ready sets of a player are in than the club wants.
func shortSets(v inventory.View, trip *inventory.Trip, p Player, at time.Time) (Shortage, bool) {
	short := Shortage{Sweater: p.Sweater, Player: p.Number, Name: p.Name, What: "ready sets", Want: RulesOf(v, p.Number, at).Sets}
	for _, set := range p.Sets {
		if _, aboard := packed(v, trip, set.Number, at); aboard && set.State == Ready {
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
