package desk

import (
	"fmt"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/labels/report"
)

// Trade notes that a player leaves with his skates.
func (d *Desk) Trade(player string, deed deeds.Trade) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		deed.Player, err = resolvePlayer(v, player, d.Instant())
		return deed, err
	})
}

// Going tells how the pairs of a player stand, and what is on them: asked before he leaves.
func (d *Desk) Going(player string) (lines []PieceLine, err error) {
	return lines, d.askAbout(player, func(v *standing.Now, p *inventory.Player) error {
		for _, n := range p.Pairs {
			for _, part := range standing.Parts(v, n, v.At) {
				lines = append(lines, pieceLine(v, part, v.At))
			}
		}
		return nil
	})
}

func (d *Desk) askAbout(player string, look func(*standing.Now, *inventory.Player) error) error {
	return d.askNow(func(v *standing.Now) error {
		n, err := resolvePlayer(v, player, v.At)
		if err != nil {
			return err
		}
		p, err := inventory.PlayerOf(v, n)
		if err != nil {
			return err
		}
		return look(v, p)
	})
}

// Gone keeps of some pieces those that went.
func (d Done) Gone(pieces []PieceLine) []PieceLine {
	gone := []PieceLine{}
	for i := range d.Events {
		if body, ok := d.Events[i].Body.(*inventory.CustodyChanged); ok {
			for _, line := range pieces {
				if slices.Contains(body.Pieces, line.Number) {
					gone = append(gone, line)
				}
			}
		}
	}
	return gone
}

// PrintHandOver puts on paper what the next club has to know of a player's steel: his
// specs, what goes with him, and what that steel went through.
func (d *Desk) PrintHandOver(player string, deed deeds.Trade, sheet Sheet) (Written, error) {
	var page report.Report
	err := d.askAbout(player, func(v *standing.Now, p *inventory.Player) error {
		specs := p.SpecsAt(v.At)
		page = report.Report{
			Title:  "Hand-over: " + heading(p, v.At),
			Notes:  []string{"From " + inventory.ClubOf(v).Name + ", " + inventory.At(v.At).SayDay(d.zone), "Specs: " + specs.String()},
			Tables: []report.Table{goingTable(v, p, deed.SteelOff)},
		}
		return nil
	})
	if err != nil {
		return Written{}, err
	}
	return d.print(sheet, page)
}

// goingTable lists the pairs that go, with holders and, where it goes, steel.
func goingTable(v *standing.Now, p *inventory.Player, steelOff bool) report.Table {
	table := report.Table{
		Title: "Goes with him", Empty: "nothing",
		Columns: []report.Column{{Title: "Pair"}, {Title: "Side"}, {Title: "Holder"}, {Title: "Runner"}, {Title: "Height now", Right: true}, {Title: "Grinds", Right: true}, {Title: "Passes", Right: true}, {Title: "Place"}},
	}
	for _, n := range p.Pairs {
		pair, err := inventory.FindPair(v, n)
		if err != nil || pair.ScrappedAt(v.At) {
			continue
		}
		for _, side := range inventory.Sides() {
			table.Rows = append(table.Rows, goingRow(v, pair, side, steelOff))
		}
	}
	return table
}

func goingRow(v *standing.Now, pair *inventory.Pair, side inventory.Side, steelOff bool) []string {
	row := []string{string(pair.Role(v.At)) + " " + pair.Number.Short(), string(side), "", "", "", "", "", standing.PlaceOf(v, pair.Number, v.At).String()}
	if holder, err := inventory.FindHolder(v, pair.HolderAt(side, v.At)); err == nil {
		row[2] = fmt.Sprintf("%s %s %d", holder.Number.Short(), holder.Model, holder.Size)
	}
	runner, err := inventory.FindRunner(v, pair.SeatAt(side, v.At).Runner)
	if err != nil || steelOff {
		return row
	}
	wear := runner.WearAt(v.At)
	row[3], row[4] = fmt.Sprintf("%s %s %d", runner.Number.Short(), runner.Model, runner.Size), sayHeight(v.HeightOf(runner.Number).Now)
	row[5], row[6] = fmt.Sprint(wear.Grinds), sayPassesOf(wear)
	return row
}
