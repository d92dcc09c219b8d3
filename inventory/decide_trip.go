package inventory

import (
	"fmt"
	"slices"
	"time"
)

// AddTrip adds a trip, or changes the days of one.
type AddTrip struct {
	Name     string
	From, To When
}

// Decide checks the days; they are for planning and may be still to come.
func (d AddTrip) Decide(_ View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the trip's name", d.Name); err != nil {
		return out, err
	}
	if d.From.Unknown() || d.To.Unknown() {
		return out, badValue("steeltally trip add NAME --from 2025-12-03 --to 2025-12-07", "a trip has a day of leaving and a day of coming back")
	}
	if d.To.Start.Before(d.From.Start) {
		return out, badValue("check both dates", "the trip ends before it begins")
	}
	out.record(m.Happened, &TripNoted{d.Name, d.From, d.To})
	return out, nil
}

// ChangeRoster says of players whether they come along.
type ChangeRoster struct {
	Trip    string
	Players []Number
	Stay    bool
}

// Decide records it.
func (d ChangeRoster) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	if len(d.Players) == 0 {
		return out, badValue("name players by sweater", "no player was named")
	}
	for _, n := range d.Players {
		if _, err := PlayerOf(v, n); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, &Travelling{trip.Name, d.Players, d.Stay})
	return out, nil
}

// PackLot is what goes into one trunk, or comes out of it.
type PackLot struct {
	Trunk  Number // zero: nobody said which
	Pieces []Number
	Kits   []KitCount
}

// Pack puts pieces and kits into trunks for a trip.
type Pack struct {
	Trip string
	Lots []PackLot
	Out  bool
}

// Decide records what lies where from now on, and says what should not travel.
func (d Pack) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	for _, lot := range d.Lots {
		if err := d.packLot(v, m, trip, lot, &out); err != nil {
			return out, err
		}
	}
	if len(out.Drafts) == 0 {
		return out, badValue("scan a trunk, then what goes into it", "nothing was scanned")
	}
	return out, nil
}

func (d Pack) packLot(v View, m Moment, trip *Trip, lot PackLot, out *Outcome) error {
	if len(lot.Pieces)+len(lot.Kits) == 0 {
		return nil
	}
	body := &Packed{Trip: trip.Name, Trunk: lot.Trunk, Kits: lot.Kits, Out: d.Out}
	if lot.Trunk != 0 {
		trunk, err := FindContainer(v, lot.Trunk)
		if err != nil {
			return err
		}
		body.Place = &Place{Name: trunk.Name}
	}
	var along []Number
	for _, n := range lot.Pieces {
		parts, err := d.pack(v, m, trip, n, lot.Trunk, out)
		if err != nil {
			return err
		}
		body.Pieces, along = append(body.Pieces, n), append(along, parts...)
	}
	out.record(m.Happened, body)
	if body.Place != nil && !d.Out && len(along) > 0 {
		out.record(m.Happened, &Placed{along, *body.Place})
	}
	return nil
}

// pack checks one piece and gives what lies where it lies.
func (d Pack) pack(v View, m Moment, trip *Trip, n, trunk Number, out *Outcome) ([]Number, error) {
	state := v.Entity(RefOf(n))
	if !entered(state) {
		state = nil
	}
	var along []Number
	switch state := state.(type) {
	case *Runner, *Holder:
	case *Pair:
		d.tellWhose(v, m, trip, state.Player, n, out)
	case *Set:
		along = []Number{state.Left, state.Right}
		d.tellWhose(v, m, trip, state.Player, n, out)
	default:
		return nil, refuse("scan a pair, a set, a holder or a runner; a trunk before what goes into it", "%s is not a piece in this book", n.Short())
	}
	if d.Out {
		return along, nil
	}
	if unsafe := unsafeIn(v, state, n, m.at()); unsafe != 0 {
		out.tell("take it along only for the maker, tagged", fmt.Sprintf("%s is unsafe: DO NOT SKATE", unsafe.Short()))
	}
	if was, packed := trip.In(n); packed && was.Trunk != trunk && was.Trunk != 0 {
		out.tell("it lies where it was scanned last", fmt.Sprintf("%s was in %s", n.Short(), was.Trunk.Short()))
	}
	return along, nil
}

// unsafeIn is the piece itself or what is on it that nobody may skate on.
func unsafeIn(v View, state Entity, n Number, at time.Time) Number {
	parts := []Number{n}
	switch state := state.(type) {
	case *Pair:
		parts = append(parts, piecesOn(state, at)...)
	case *Set:
		parts = append(parts, state.Left, state.Right)
	}
	for _, part := range parts {
		if marksOf(v, part).DoNotSkate(at) {
			return part
		}
	}
	return 0
}

func (d Pack) tellWhose(v View, m Moment, trip *Trip, n, piece Number, out *Outcome) {
	player, ok := v.Entity(RefOf(n)).(*Player)
	if ok && !d.Out && !trip.Comes(n, !player.Gone) {
		out.tell("steeltally trip roster "+quoted(trip.Name)+" --with "+sayPlayer(player, m.at())+" if he does", fmt.Sprintf("%s is %s's, who does not come along", piece.Short(), player.Name))
	}
}

// CountTrunks is one scan a trunk, going out or coming back.
type CountTrunks struct {
	Trip   string
	Back   bool
	Trunks []Number
}

// Decide records what was there, and names what was not.
func (d CountTrunks) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	body := &Loaded{Trip: trip.Name, Leg: legOut, Trunks: distinct(slices.Clone(d.Trunks))}
	if d.Back {
		body.Leg = legBack
	}
	if len(body.Trunks) == 0 {
		return out, badValue("scan the trunks", "no trunk was scanned")
	}
	for _, n := range body.Trunks {
		if _, err := FindContainer(v, n); err != nil {
			return out, err
		}
	}
	for _, n := range TrunksNotHere(trip, d.Back, body.Trunks, m.at()) {
		out.tell("look for it before the bus leaves", fmt.Sprintf("%s is not here", ContainerName(v, n)))
	}
	out.record(m.Happened, body)
	return out, nil
}

// TrunksNotHere lists the trunks that a count should have found and did not: on the way
// out those that were packed, on the way back those that were taken along. What an
// earlier count of the same leg found is here.
func TrunksNotHere(trip *Trip, back bool, here []Number, at time.Time) []Number {
	expected, leg := trip.Trunks(), legOut
	if back {
		leg = legBack
		if out := trip.Counted(legOut, at); len(out) > 0 {
			expected = out
		}
	}
	found := append(trip.Counted(leg, at), here...)
	return slices.DeleteFunc(slices.Clone(expected), func(n Number) bool { return slices.Contains(found, n) })
}

// ContainerName is what a trunk or bin is called.
func ContainerName(v View, n Number) string {
	if container, ok := v.Entity(RefOf(n)).(*Container); ok && container.Name != "" {
		return container.Name
	}
	return n.Short()
}

// NoteKit says what travels that is not steel, and how many of it at least.
type NoteKit KitNoted

const mostKits = 100_000

// Decide records it; nothing at least takes it off the list.
func (d NoteKit) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the kit's name", d.Kit); err != nil {
		return out, err
	}
	if d.Least < 0 || d.Least > mostKits {
		return out, badValue("", "at least %d: 0 to %d are possible", d.Least, mostKits)
	}
	known := slices.ContainsFunc(KitList(v), func(k KitNoted) bool { return sameName(k.Kit, d.Kit) })
	if d.Least == 0 && !known {
		return out, refuse("steeltally trip kits lists them", "no kit is called %s", clip(d.Kit))
	}
	body := KitNoted(d)
	out.record(m.Happened, &body)
	return out, nil
}
