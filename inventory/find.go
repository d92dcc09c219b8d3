package inventory

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// ClubOf is the club of a record; the zero Club where there is none yet.
func ClubOf(v View) *Club {
	if club, ok := v.Entity(ClubRef).(*Club); ok {
		return club
	}
	return &Club{}
}

// RosterOf is the list of a club's players, empty where there are none yet.
func RosterOf(v View) *Roster {
	if roster, ok := v.Entity(RosterRef).(*Roster); ok {
		return roster
	}
	return &Roster{}
}

// find is the state of a numbered thing of the type that is meant.
func find[T Entity](v View, n Number, meant Kind) (T, error) {
	var none T
	if n == 0 {
		return none, Refuse(fmt.Sprintf("no %s was named", meant), "scan the "+meant.String()+" that is meant")
	}
	if n.Kind() != meant {
		return none, Refuse(fmt.Sprintf("%s is a %s, not a %s", n.Short(), n.Kind(), meant), "scan the "+meant.String()+" that is meant")
	}
	state, ok := v.Entity(RefOf(n)).(T)
	if !ok || !IsEntered(state) {
		return none, Refuse(n.Short()+" is not in this book", "check the tag; a new piece is entered first: steeltally stockin")
	}
	return state, nil
}

// FindRunner is a runner by its number.
func FindRunner(v View, n Number) (*Runner, error) { return find[*Runner](v, n, KindRunner) }

// FindHolder is a holder by its number.
func FindHolder(v View, n Number) (*Holder, error) { return find[*Holder](v, n, KindHolder) }

// FindPair is a pair by its number.
func FindPair(v View, n Number) (*Pair, error) { return find[*Pair](v, n, KindPair) }

// FindSet is a set by its number.
func FindSet(v View, n Number) (*Set, error) { return find[*Set](v, n, KindSet) }

// PlayerOf is a player by number.
func PlayerOf(v View, n Number) (*Player, error) { return find[*Player](v, n, KindPlayer) }

// MostSweater is the highest number that a sweater carries.
const MostSweater = 99

// FindPlayer finds a player by sweater number at an instant, by piece number, or by
// name: three letters or more of any word of it. Several that match are an *Ambiguous error.
func FindPlayer(v View, text string, at time.Time) (*Player, error) {
	text = AsScanned(text)
	if ByName(text) {
		return playerNamed(v, text)
	}
	if sweater, err := strconv.Atoi(text); err == nil && len(text) <= 2 {
		if sweater == 0 {
			return onlyOne(v, text, nil)
		}
		wearing := RosterOf(v).Wearing(sweater, at)
		if later, since := RosterOf(v).WearsLater(sweater, at); len(wearing) == 0 && later != nil {
			return nil, notYet(v, since, fmt.Sprintf("nobody wore %d then; %s wears it", sweater, later.Name), "give a later time, or the player's number: "+later.Player.Short())
		}
		return onlyOne(v, text, wearing)
	}
	n, err := ScannedNumber(text)
	if err != nil {
		return nil, err
	}
	return PlayerOf(v, n)
}

// ByName tells whether a text can name somebody by name only: it is no sweater and no
// number of a piece. What is named so is shown; nothing is recorded by it.
func ByName(text string) bool {
	s := AsScanned(text)
	return !allDigits(s) && !looksShort(s) && !IsTally(s)
}

func onlyOne(v View, text string, members []Member) (*Player, error) {
	switch len(members) {
	case 0:
		return nil, Refuse("nobody is known as "+Clip(text), "steeltally player list shows who is there")
	case 1:
		return PlayerOf(v, members[0].Player)
	}
	return nil, &Ambiguous{text, members}
}

// PairInRole is a player's pair in a role at an instant.
func PairInRole(v View, player *Player, role Role, at time.Time) (*Pair, error) {
	for _, n := range slices.Backward(player.Pairs) {
		if pair, ok := v.Entity(RefOf(n)).(*Pair); ok && pair.Role(at) == role {
			return pair, nil
		}
	}
	for _, n := range player.Pairs {
		if since, ok := roleAfter(v, n, role, at); ok {
			return nil, notYet(v, since, fmt.Sprintf("%s had no %s pair then; %s is his", player.Name, role, n.Short()), "give a later time")
		}
	}
	return nil, Refuse(fmt.Sprintf("%s has no %s pair in this book", player.Name, role), "steeltally pair add "+player.Typed(at)+" --role "+string(role))
}

// roleAfter is when a pair got a role after an instant.
func roleAfter(v View, n Number, role Role, at time.Time) (When, bool) {
	pair, ok := v.Entity(RefOf(n)).(*Pair)
	if !ok {
		return When{}, false
	}
	return pair.Roles.after(at, func(is Role) bool { return is == role })
}

// SetOfPlayer is a player's set by its letter or its number.
func SetOfPlayer(v View, player *Player, text string) (*Set, error) {
	letter := strings.ToUpper(strings.TrimSpace(text))
	if n := player.SetLettered(letter); n != 0 {
		return FindSet(v, n)
	}
	if len(letter) <= 1 {
		return nil, Refuse(player.Name+" has no set "+Clip(letter), "steeltally set list "+player.Number.Short()+" shows the sets")
	}
	n, err := ParseNumber(text)
	if err != nil {
		return nil, err
	}
	set, err := FindSet(v, n)
	if err == nil && set.Player != player.Number {
		owner, _ := v.Entity(RefOf(set.Player)).(*Player)
		if owner != nil {
			err = Refuse(fmt.Sprintf("set %s %s is %s's", set.Letter, set.Number.Short(), owner.Name), "match its runners anew for "+player.Name+": steeltally set add")
		}
	}
	return set, err
}

// ContainerNamed is the trunk or bin of a name, or nil.
func ContainerNamed(v View, name string) *Container {
	var found *Container
	for _, kind := range []Kind{KindTrunk, KindBin} {
		v.Each(kind, func(_ Number, state Entity) bool {
			if container, ok := state.(*Container); ok && SameName(container.Name, name) {
				found = container
			}
			return found == nil
		})
	}
	return found
}

// FindContainer is a trunk or a bin by its number.
func FindContainer(v View, n Number) (*Container, error) {
	container, ok := v.Entity(RefOf(n)).(*Container)
	if !ok || !container.Entered() {
		return nil, Refuse(n.Short()+" is not in this book", "steeltally stockin "+n.Kind().String()+" --name NAME enters one")
	}
	return container, nil
}
