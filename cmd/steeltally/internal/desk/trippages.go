package desk

import (
	"fmt"
	"strconv"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/travel"
	"steeltally/labels/report"
)

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
		for _, stowage := range travel.Manifest(v, trip, v.At) {
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
