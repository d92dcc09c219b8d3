package desk

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/labels/report"
)

// Trade notes that a player leaves with his skates.
func (d *Desk) Trade(player string, deed deeds.Trade) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		deed.Player, err = resolvePlayer(v, player, d.Instant())
		return deed, err
	})
}

// PrintHandOver puts on paper what the next club has to know of a player's steel: his
// specs, what goes with him, and what that steel went through.
func (d *Desk) PrintHandOver(player string, sheet Sheet) (Written, error) {
	var page report.Report
	err := d.ask(func(v inventory.View, at time.Time) error {
		n, err := resolvePlayer(v, player, at)
		if err != nil {
			return err
		}
		p, err := inventory.PlayerOf(v, n)
		if err != nil {
			return err
		}
		page = report.Report{Title: "Hand-over: " + heading(p, at), Notes: []string{
			"From " + inventory.ClubOf(v).Name + ", " + inventory.At(at).SayDay(d.zone), "Specs: " + sayItsSpecs(p, at),
		}}
		page.Tables = []report.Table{d.goingTable(v, p, at)}
		return nil
	})
	if err != nil {
		return Written{}, err
	}
	return sheet.print(page)
}

func sayItsSpecs(p *inventory.Player, at time.Time) string {
	specs := p.SpecsAt(at)
	return specs.String()
}

// goingTable lists the pairs that go, with holders and steel.
func (d *Desk) goingTable(v inventory.View, p *inventory.Player, at time.Time) report.Table {
	table := report.Table{
		Title: "Goes with him", Empty: "nothing",
		Columns: []report.Column{{Title: "Pair"}, {Title: "Side"}, {Title: "Holder"}, {Title: "Runner"}, {Title: "Height", Right: true}, {Title: "Grinds", Right: true}, {Title: "Passes", Right: true}},
	}
	for _, n := range p.Pairs {
		pair, err := inventory.FindPair(v, n)
		if err != nil || pair.ScrappedAt(at) {
			continue
		}
		for _, side := range inventory.Sides() {
			table.Rows = append(table.Rows, goingRow(v, pair, side, at))
		}
	}
	return table
}

func goingRow(v inventory.View, pair *inventory.Pair, side inventory.Side, at time.Time) []string {
	row := []string{string(pair.Role(at)) + " " + pair.Number.Short(), string(side), "", "", "", "", ""}
	if holder, err := inventory.FindHolder(v, pair.HolderAt(side, at)); err == nil {
		row[2] = fmt.Sprintf("%s %d", holder.Model, holder.Size)
	}
	runner, err := inventory.FindRunner(v, pair.SeatAt(side, at).Runner)
	if err != nil {
		return row
	}
	wear := runner.WearAt(at)
	height := wear.HeightLast
	if height == nil {
		height = wear.HeightNew
	}
	row[3], row[4] = fmt.Sprintf("%s %d", runner.Model, runner.Size), sayHeight(height)
	row[5], row[6] = fmt.Sprint(wear.Grinds), sayPassesOf(wear)
	return row
}
