package deeds

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// AddTrip adds a trip, or changes the days of one.
type AddTrip struct {
	Name     string
	From, To inventory.When
}

// Decide checks the days; they are for planning and may be still to come.
func (d AddTrip) Decide(_ inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the trip's name", d.Name); err != nil {
		return out, err
	}
	if d.From.Unknown() || d.To.Unknown() {
		return out, inventory.RefuseValue("a trip has a day of leaving and a day of coming back", "steeltally trip add NAME --from 2025-12-03 --to 2025-12-07")
	}
	if d.To.Start.Before(d.From.Start) {
		return out, inventory.RefuseValue("the trip ends before it begins", "check both dates")
	}
	out.record(m.Happened, &inventory.TripNoted{Trip: d.Name, From: d.From, To: d.To})
	return out, nil
}

// ChangeRoster says of players whether they come along.
type ChangeRoster struct {
	Trip    string
	Players []inventory.Number
	Stay    bool
}

// Decide records it.
func (d ChangeRoster) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := inventory.FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	if len(d.Players) == 0 {
		return out, inventory.RefuseValue("no player was named", "name players by sweater")
	}
	for _, n := range d.Players {
		if _, err := inventory.PlayerOf(v, n); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, &inventory.Travelling{Trip: trip.Name, Players: d.Players, Stay: d.Stay})
	return out, nil
}

// PackLot is what goes into one trunk, or comes out of it.
type PackLot struct {
	Trunk  inventory.Number // zero: nobody said which
	Pieces []inventory.Number
	Kits   []inventory.KitCount
}

// Pack puts pieces and kits into trunks for a trip.
type Pack struct {
	Trip string
	Lots []PackLot
	Out  bool
}

// Decide records what lies where from now on, and says what should not travel.
func (d Pack) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := inventory.FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	for _, lot := range d.lots(trip) {
		if err := d.packLot(v, m, trip, lot, &out); err != nil {
			return out, err
		}
	}
	if len(out.Drafts) == 0 {
		return out, inventory.RefuseValue("nothing was scanned", "scan a trunk, then what goes into it")
	}
	return out, nil
}

// lots are what goes in or comes out by trunk. Of what comes out, the record knows from which.
func (d Pack) lots(trip *inventory.Trip) []PackLot {
	if !d.Out {
		return d.Lots
	}
	var lots []PackLot
	from := func(trunk inventory.Number) *PackLot {
		at := slices.IndexFunc(lots, func(l PackLot) bool { return l.Trunk == trunk })
		if at < 0 {
			at, lots = len(lots), append(lots, PackLot{Trunk: trunk})
		}
		return &lots[at]
	}
	for _, lot := range d.Lots {
		for _, n := range lot.Pieces {
			trunk := lot.Trunk
			if was, packed := trip.In(n); packed && trunk == 0 {
				trunk = was.Trunk
			}
			from(trunk).Pieces = append(from(trunk).Pieces, n)
		}
		from(lot.Trunk).Kits = append(from(lot.Trunk).Kits, lot.Kits...)
	}
	return lots
}

func (d Pack) packLot(v inventory.View, m Moment, trip *inventory.Trip, lot PackLot, out *Outcome) error {
	if len(lot.Pieces)+len(lot.Kits) == 0 {
		return nil
	}
	body := &inventory.Packed{Trip: trip.Name, Trunk: lot.Trunk, Kits: lot.Kits, Out: d.Out}
	if lot.Trunk != 0 {
		trunk, err := inventory.FindContainer(v, lot.Trunk)
		if err != nil {
			return err
		}
		body.Place = &inventory.Place{Name: trunk.Name}
	}
	var along []inventory.Number
	for _, n := range lot.Pieces {
		parts, err := d.pack(v, m, trip, n, lot.Trunk, out)
		if err != nil {
			return err
		}
		body.Pieces, along = append(body.Pieces, n), append(along, parts...)
	}
	out.record(m.Happened, body)
	if body.Place != nil && !d.Out && len(along) > 0 {
		out.record(m.Happened, &inventory.Placed{Pieces: along, Place: *body.Place})
	}
	return nil
}

// pack checks one piece and gives what lies where it lies.
func (d Pack) pack(v inventory.View, m Moment, trip *inventory.Trip, n, trunk inventory.Number, out *Outcome) ([]inventory.Number, error) {
	state := v.Entity(inventory.RefOf(n))
	if !inventory.IsEntered(state) {
		state = nil
	}
	var along []inventory.Number
	switch state := state.(type) {
	case *inventory.Runner, *inventory.Holder:
	case *inventory.Pair:
		d.tellWhose(v, m, trip, state.Player, n, out)
	case *inventory.Set:
		along = []inventory.Number{state.Left, state.Right}
		d.tellWhose(v, m, trip, state.Player, n, out)
	default:
		return nil, inventory.Refuse(n.Short()+" is not a piece in this book", "scan a pair, a set, a holder or a runner; a trunk before what goes into it")
	}
	if d.Out {
		return along, nil
	}
	if unsafe := standing.UnsafePart(v, n, m.at()); unsafe != 0 {
		out.tell(fmt.Sprintf("%s is unsafe: DO NOT SKATE", unsafe.Short()), "take it along only for the maker, tagged")
	}
	if was, packed := trip.In(n); packed && was.Trunk != trunk && was.Trunk != 0 {
		out.tell(fmt.Sprintf("%s was in %s", n.Short(), was.Trunk.Short()), "it lies where it was scanned last")
	}
	return along, nil
}

func (d Pack) tellWhose(v inventory.View, m Moment, trip *inventory.Trip, n, piece inventory.Number, out *Outcome) {
	player, ok := v.Entity(inventory.RefOf(n)).(*inventory.Player)
	if ok && !d.Out && !trip.Comes(n, !player.Gone) {
		out.tell(fmt.Sprintf("%s is %s's, who does not come along", piece.Short(), player.Name), "steeltally trip roster "+inventory.Quoted(trip.Name)+" --with "+player.Typed(m.at())+" if he does")
	}
}

// CountTrunks is one scan a trunk, going out or coming back.
type CountTrunks struct {
	Trip   string
	Back   bool
	Trunks []inventory.Number
}

// Decide records what was there, and names what was not, and what never was on the trip.
func (d CountTrunks) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := inventory.FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	body := &inventory.Loaded{Trip: trip.Name, Leg: inventory.LegOut, Trunks: inventory.Distinct(slices.Clone(d.Trunks))}
	if d.Back {
		body.Leg = inventory.LegBack
	}
	if len(body.Trunks) == 0 {
		return out, inventory.RefuseValue("no trunk was scanned", "scan the trunks")
	}
	for _, n := range body.Trunks {
		if _, err := inventory.FindContainer(v, n); err != nil {
			return out, err
		}
	}
	for _, n := range inventory.TrunksNotHere(trip, d.Back, body.Trunks, m.at()) {
		out.tell(fmt.Sprintf("%s is not here", inventory.ContainerName(v, n)), "look for it before the bus leaves")
	}
	if d.Back {
		for _, n := range neverOn(trip, body.Trunks, m.at()) {
			out.tell(fmt.Sprintf("%s never was on this trip", inventory.ContainerName(v, n)), "if it is another trip's: steeltally undo")
		}
	}
	out.record(m.Happened, body)
	return out, nil
}

// neverOn lists the trunks of a count that nothing was packed into and that were not
// counted out.
func neverOn(trip *inventory.Trip, here []inventory.Number, at time.Time) []inventory.Number {
	on := append(trip.Trunks(), trip.Counted(inventory.LegOut, at)...)
	return slices.DeleteFunc(slices.Clone(here), func(n inventory.Number) bool { return slices.Contains(on, n) })
}

// NoteKit says what travels that is not steel, and how many of it at least.
type NoteKit inventory.KitNoted

const mostKits = 100_000

// Decide records it; nothing at least takes it off the list.
func (d NoteKit) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the kit's name", d.Kit); err != nil {
		return out, err
	}
	if d.Least < 0 || d.Least > mostKits {
		return out, inventory.RefuseValue(fmt.Sprintf("at least %d: 0 to %d are possible", d.Least, mostKits), "")
	}
	known := slices.ContainsFunc(inventory.KitList(v), func(k inventory.KitNoted) bool { return inventory.SameName(k.Kit, d.Kit) })
	if d.Least == 0 && !known {
		return out, inventory.Refuse(fmt.Sprintf("no kit is called %s", inventory.Clip(d.Kit)), "steeltally trip kits lists them")
	}
	body := inventory.KitNoted(d)
	out.record(m.Happened, &body)
	return out, nil
}
