package standing

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// Lack is what a boot in use lacks: a holder that it had, or a runner whose mate is on.
type Lack struct {
	Side inventory.Side
	What inventory.Kind
	Hint string // what fills it
}

// Lacking lists what the boots of a player's pair lack.
func Lacking(v inventory.View, player *inventory.Player, pair *inventory.Pair, at time.Time) []Lack {
	var lacks []Lack
	for _, side := range inventory.Sides() {
		mate := pair.SeatAt(side.Other(), at)
		switch {
		case pair.HolderAt(side, at) == 0 && len(pair.Boot(side).Holders.Until(at)) > 0:
			lacks = append(lacks, Lack{side, inventory.KindHolder, "steeltally rivet on HOLDER --pair " + pair.Number.Short()})
		case pair.SeatAt(side, at).Runner == 0 && mate.Runner != 0:
			hint := "steeltally change " + inventory.Typed(v, player, at) + " SET --pair " + pair.Number.Short()
			if set, err := inventory.FindSet(v, mate.Set); err == nil && StateOf(v, set.Runner(side), at) == inventory.Ready {
				hint = "steeltally in " + inventory.Typed(v, player, at) + " " + set.Letter + " --pair " + pair.Number.Short()
			}
			lacks = append(lacks, Lack{side, inventory.KindRunner, hint})
		}
	}
	return lacks
}

// String says it: "the left boot has no runner".
func (l Lack) String() string { return "the " + string(l.Side) + " boot has no " + l.What.String() }

// OnPair is the pair that a player skates on.
type OnPair struct {
	*inventory.Pair
	Moment *Moment // why it is not his first; nil: it is
}

// Moment is why a player skates on another pair than his first for the moment.
type Moment struct {
	Emergency inventory.Key  // that leads back to the first pair when it is closed
	Since     inventory.When // he was back on the ice
	Side      inventory.Side // what broke is on this side of
	Broken    inventory.Number
}

// Why says why it is that pair: "first", or "spare, for the moment".
func (p OnPair) Why(at time.Time) string {
	if p.Moment == nil {
		return string(p.Role(at))
	}
	return string(p.Role(at)) + ", for the moment"
}

// SkatesOn is the pair that a player skates on at an instant: the one that he went on with
// in his last emergency, until somebody says that this is over; else his first. A pair that
// was thrown away, or that he keeps for another day, is none.
func SkatesOn(v inventory.View, player *inventory.Player, at time.Time) (OnPair, error) {
	if pair, moment := wentOnWith(v, player, at); pair != nil {
		return OnPair{pair, moment}, nil
	}
	first, err := inventory.PairInRole(v, player, inventory.RoleFirst, at)
	return OnPair{Pair: first}, err
}

// wentOnWith is the pair that a player went on with in the emergency that ended last; nil
// where that is his first, or where it is over.
func wentOnWith(v inventory.View, player *inventory.Player, at time.Time) (*inventory.Pair, *Moment) {
	var last inventory.Dated[inventory.Crisis]
	for _, crisis := range player.OpenCrises(at) {
		done := crisis.Value.DoneAt(at)
		if done == nil || pairOf(done.Value.With) == 0 {
			continue
		}
		if ended := last.Value.Done; ended == nil || !done.When.Start.Before(ended.When.Start) {
			last = crisis
		}
	}
	if last.Value.Done == nil {
		return nil, nil
	}
	pair, err := inventory.FindPair(v, pairOf(last.Value.Done.Value.With))
	if err != nil || pair.Player != player.Number || pair.ScrappedAt(at) || !skated(pair.Role(at)) {
		return nil, nil
	}
	return pair, &Moment{last.Event, last.Value.Done.When, last.Value.Side, last.Value.Pair}
}

// skated tells whether a pair of a role is skated on other than as the first.
func skated(role inventory.Role) bool {
	return role == inventory.RoleSpare || role == inventory.RoleThird
}

// pairOf is the pair among some pieces, or zero.
func pairOf(pieces []inventory.Number) inventory.Number {
	i := slices.IndexFunc(pieces, func(n inventory.Number) bool { return n.Kind() == inventory.KindPair })
	if i < 0 {
		return 0
	}
	return pieces[i]
}

// Skating lists the players who have steel on the pair that they skate on at an instant.
func Skating(v inventory.View, at time.Time) []inventory.Number {
	var skating []inventory.Number
	for _, member := range inventory.RosterOf(v).Members {
		if member.GoneAt(at) {
			continue // before the player's state is read: of many seasons, most have left
		}
		player, err := inventory.PlayerOf(v, member.Player)
		if err != nil {
			continue
		}
		if pair, err := SkatesOn(v, player, at); err == nil && pair.SetAt(at) != 0 {
			skating = append(skating, member.Player)
		}
	}
	return skating
}
