package desk

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/roadtrip"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
	"steeltally/labels/report"
)

// AddTrip adds a trip; its days are as typed.
func (d *Desk) AddTrip(name, from, to string) (Done, error) {
	deed := deeds.AddTrip{Name: name}
	var err error
	if deed.From, err = d.day(from); err != nil {
		return Done{}, err
	}
	if deed.To, err = d.day(to); err != nil {
		return Done{}, err
	}
	return d.do(deed)
}

// TripLine is a trip in a list.
type TripLine struct {
	Name   string `json:"name"`
	From   string `json:"from"`
	To     string `json:"to"`
	Trunks int    `json:"trunks"`
	Pieces int    `json:"pieces"`
	Short  int    `json:"short"`

	Over bool `json:"-"` // what is short is not counted any more
}

// listedTripsBack is how long after its end a trip is still listed.
const listedTripsBack = 30 * 24 * time.Hour

// Trips lists the trips by their day of leaving: those of the last month and to come, or
// all. What is short is counted for those that are not over.
func (d *Desk) Trips(all bool) ([]TripLine, error) {
	lines, err := d.TripList(all)
	if err != nil || !AnyToCome(lines) {
		return lines, err
	}
	squad, err := d.squad()
	if err != nil {
		return nil, err
	}
	return lines, d.CountShort(lines, squad)
}

// AnyToCome tells whether a trip of a list is not over.
func AnyToCome(lines []TripLine) bool {
	return slices.ContainsFunc(lines, func(l TripLine) bool { return !l.Over })
}

// CountShort counts what is short on the trips of a list that are not over.
func (d *Desk) CountShort(lines []TripLine, squad *Squad) error {
	return d.ask(func(v inventory.View, _ time.Time) error {
		for i := range lines {
			if lines[i].Over {
				continue
			}
			trip, err := inventory.FindTrip(v, lines[i].Name)
			if err != nil {
				return err
			}
			lines[i].Short = len(roadtrip.Short(v, trip, squad.told, squad.at))
		}
		return nil
	})
}

// TripList is the list of trips without what is short on them.
func (d *Desk) TripList(all bool) ([]TripLine, error) {
	lines := []TripLine{}
	err := d.ask(func(v inventory.View, at time.Time) error {
		for _, line := range inventory.TripList(v) {
			if !all && line.To.End.Before(at.Add(-listedTripsBack)) {
				continue
			}
			trip, err := inventory.FindTrip(v, line.Name)
			if err != nil {
				return err
			}
			told := TripLine{trip.Name, trip.From.SayDay(d.zone), trip.To.SayDay(d.zone), len(trip.Trunks()), len(roadtrip.Aboard(v, trip, at)), 0, trip.To.End.Before(at)}
			lines = append(lines, told)
		}
		return nil
	})
	return lines, err
}

// ChangeRoster says of players whether they come along.
func (d *Desk) ChangeRoster(trip string, players []string, stay bool) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		numbers, err := d.resolveAll(v, players, resolvePlayer)
		return deeds.ChangeRoster{Trip: trip, Players: numbers, Stay: stay}, err
	})
}

// RosterLine is a player who comes along.
type RosterLine struct {
	Number   inventory.Number `json:"number"`
	Sweater  int              `json:"sweater,omitempty"`
	Name     string           `json:"name"`
	CalledUp bool             `json:"called_up,omitempty"`
	State    sparepair.State  `json:"spare_pair"`
}

// GameLine is a game of a trip.
type GameLine struct {
	Start    string `json:"start"`
	Opponent string `json:"opponent"`
	Away     bool   `json:"away,omitempty"`
}

// Roster lists who comes along, those who were called up first, and the trip's games.
func (d *Desk) Roster(name string) ([]RosterLine, []GameLine, error) {
	lines, games := []RosterLine{}, []GameLine{}
	err := d.askNow(func(v *standing.Now) error {
		trip, err := inventory.FindTrip(v, name)
		if err != nil {
			return err
		}
		for _, p := range roadtrip.Travellers(sparepair.Squad(v), trip) {
			lines = append(lines, RosterLine{p.Number, p.Sweater, p.Name, p.CalledUp, p.State()})
		}
		for _, session := range inventory.Sessions(v, trip.From.Start, trip.To.End) {
			if session.Value.Game {
				games = append(games, GameLine{session.When.Say(d.zone), session.Value.Opponent, session.Value.Away})
			}
		}
		return nil
	})
	return lines, games, err
}

// NoteKit says what travels that is not steel.
func (d *Desk) NoteKit(kit string, least int) (Done, error) {
	return d.do(deeds.NoteKit{Kit: kit, Least: least})
}

// Kits lists what travels that is not steel.
func (d *Desk) Kits() ([]inventory.KitNoted, error) {
	kits := []inventory.KitNoted{}
	err := d.ask(func(v inventory.View, _ time.Time) error {
		kits = append(kits, inventory.KitList(v)...)
		return nil
	})
	return kits, err
}

// ShortLine is what should be in a trunk and is not.
type ShortLine struct {
	Sweater    int              `json:"sweater,omitempty"`
	Player     inventory.Number `json:"player,omitempty"`
	Name       string           `json:"name"`
	What       string           `json:"what"`
	Number     inventory.Number `json:"number,omitempty"`
	Place      string           `json:"-"`
	Why        string           `json:"why"`
	*PieceLine                  // nil for what has no number
	Have       int              `json:"have"`
	Want       int              `json:"want"`
}

// TripShort is what a trip lacks.
type TripShort struct {
	Trip   string      `json:"trip"`
	Packed int         `json:"packed"`
	Short  []ShortLine `json:"short"`
	Trunks []NotHere   `json:"trunks_not_here,omitempty"`
}

// NotHere is a trunk that a count has not found.
type NotHere struct {
	Number inventory.Number `json:"number"`
	Name   string           `json:"name"`
}

// Short tells what should be in the trunks of a trip and is not, and which trunks were
// taken along and not counted back where the count back has begun.
func (d *Desk) Short(name string) (TripShort, error) {
	squad, err := d.squad()
	if err != nil {
		return TripShort{}, err
	}
	return d.ShortOf(name, squad)
}

// ShortOf tells the same of a squad that was read.
func (d *Desk) ShortOf(name string, squad *Squad) (TripShort, error) {
	short := TripShort{Short: []ShortLine{}}
	at := squad.at
	err := d.ask(func(v inventory.View, _ time.Time) error {
		trip, err := inventory.FindTrip(v, name)
		if err != nil {
			return err
		}
		short.Trip, short.Packed = trip.Name, len(roadtrip.Aboard(v, trip, at))
		for _, s := range roadtrip.Short(v, trip, squad.told, at) {
			short.Short = append(short.Short, ShortLine{s.Sweater, s.Player, s.Name, s.What, s.Number, s.Place.String(), s.Why, pieceIf(v, s.Number, at), s.Have, s.Want})
		}
		back := len(trip.Counted("back", at)) > 0
		if back || len(trip.Counted(inventory.LegOut, at)) > 0 {
			short.Trunks = notHere(v, inventory.TrunksNotHere(trip, back, nil, at))
		}
		return nil
	})
	return short, err
}

func notHere(v inventory.View, trunks []inventory.Number) []NotHere {
	lines := []NotHere{}
	for _, n := range trunks {
		lines = append(lines, NotHere{n, inventory.ContainerName(v, n)})
	}
	return lines
}

// StowedLine is one line of a manifest.
type StowedLine struct {
	*PieceLine                  // nil for a kit
	Number     inventory.Number `json:"number,omitempty"`
	What       string           `json:"what"`
	Owner      string           `json:"owner,omitempty"`
	Count      int              `json:"count"`
}

// StowageLine is what is in one trunk.
type StowageLine struct {
	Trunk inventory.Number `json:"trunk,omitempty"`
	Name  string           `json:"name"`
	In    []StowedLine     `json:"in"`
}

// Holds says how many pieces and kits are in the trunk: "12 pieces, 3 kits".
func (s StowageLine) Holds() string {
	pieces := 0
	for _, stowed := range s.In {
		if stowed.Number != 0 {
			pieces++
		}
	}
	holds := SayCount(pieces, "piece")
	if kits := len(s.In) - pieces; kits > 0 {
		holds += ", " + SayCount(kits, "kit")
	}
	return holds
}

// Manifest lists what is packed for a trip, trunk by trunk.
func (d *Desk) Manifest(name string) ([]StowageLine, error) {
	lines := []StowageLine{}
	err := d.askNow(func(v *standing.Now) error {
		trip, err := inventory.FindTrip(v, name)
		if err != nil {
			return err
		}
		for _, stowage := range roadtrip.Manifest(v, trip, v.At) {
			line := StowageLine{stowage.Trunk, stowage.Name, []StowedLine{}}
			for _, stowed := range stowage.In {
				line.In = append(line.In, StowedLine{pieceIf(v, stowed.Number, v.At), stowed.Number, stowed.What, stowed.Owner, stowed.Count})
			}
			lines = append(lines, line)
		}
		return nil
	})
	return lines, err
}

// PrintManifest puts a trip's manifest on paper: who comes along, what is in which
// trunk, what is short.
func (d *Desk) PrintManifest(name string, sheet Sheet) (Written, error) {
	manifest, err := d.Manifest(name)
	if err != nil {
		return Written{}, err
	}
	roster, games, err := d.Roster(name)
	if err != nil {
		return Written{}, err
	}
	short, err := d.Short(name)
	if err != nil {
		return Written{}, err
	}
	page := report.Report{Title: "Manifest: " + short.Trip, Notes: []string{fmt.Sprintf("pieces packed: %d, trunks: %d", short.Packed, len(manifest))}}
	for _, game := range games {
		where := "against "
		if game.Away {
			where = "at "
		}
		page.Notes = append(page.Notes, game.Start+" "+where+game.Opponent)
	}
	page.Tables = append(page.Tables, shortTable(short), rosterTable(roster))
	for _, stowage := range manifest {
		page.Tables = append(page.Tables, stowageTable(stowage))
	}
	return d.print(sheet, page)
}

func shortTable(short TripShort) report.Table {
	table := report.Table{
		Title: "Short", Empty: "nothing is short",
		Columns: []report.Column{{Title: "No", Right: true}, {Title: "Name"}, {Title: "What"}, {Title: "Why"}, {Title: "Where it was"}},
	}
	for _, s := range short.Short {
		table.Rows = append(table.Rows, []string{sweaterCell(s.Sweater), s.Name, s.What, s.Why, s.Place})
	}
	return table
}

func rosterTable(roster []RosterLine) report.Table {
	table := report.Table{
		Title: "Players", Empty: "nobody comes along",
		Columns: []report.Column{{Title: "No", Right: true}, {Title: "Name"}, {Title: ""}, {Title: "Spare pair"}},
	}
	for _, p := range roster {
		called := ""
		if p.CalledUp {
			called = "called up"
		}
		table.Rows = append(table.Rows, []string{sweaterCell(p.Sweater), p.Name, called, string(p.State)})
	}
	return table
}

func stowageTable(stowage StowageLine) report.Table {
	title := stowage.Name
	if stowage.Trunk != 0 {
		title += " · " + stowage.Trunk.Short()
	}
	table := report.Table{
		Title: title, Empty: "empty",
		Columns: []report.Column{{Title: "Number"}, {Title: "What"}, {Title: "Whose"}, {Title: "Count", Right: true}},
	}
	for _, line := range stowage.In {
		table.Rows = append(table.Rows, []string{line.Number.Short(), line.What, line.Owner, strconv.Itoa(line.Count)})
	}
	return table
}

func sweaterCell(sweater int) string {
	if sweater == 0 {
		return ""
	}
	return strconv.Itoa(sweater)
}

// TripTrunks lists the trunks of a trip, for their tags.
func (d *Desk) TripTrunks(name string) ([]inventory.Number, error) {
	var trunks []inventory.Number
	err := d.ask(func(v inventory.View, at time.Time) error {
		trip, err := inventory.FindTrip(v, name)
		if err == nil {
			trunks = trip.Trunks()
		}
		return err
	})
	return trunks, err
}
