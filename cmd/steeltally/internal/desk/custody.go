package desk

import (
	"fmt"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/labels/report"
)

// HandOver gives pieces into other hands; due is as typed.
func (d *Desk) HandOver(pieces []string, due string, deed deeds.HandOver) (Done, error) {
	var err error
	if deed.Due, err = d.day(due); err != nil {
		return Done{}, err
	}
	if deed.Pieces, err = ScannedAll(pieces); err != nil {
		return Done{}, err
	}
	return d.do(deed)
}

// TakeBack notes that pieces are with the club again.
func (d *Desk) TakeBack(pieces []string, notGround bool) (Done, error) {
	numbers, err := ScannedAll(pieces)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.TakeBack{Pieces: numbers, NotGround: notGround})
}

// NoteAnswer notes what a maker said about pieces that he has.
func (d *Desk) NoteAnswer(pieces []string, due string, deed deeds.NoteAnswer) (Done, error) {
	var err error
	if deed.Due, err = d.day(due); err != nil {
		return Done{}, err
	}
	if deed.Pieces, err = ScannedAll(pieces); err != nil {
		return Done{}, err
	}
	return d.do(deed)
}

// Scrap notes that pieces were thrown away.
func (d *Desk) Scrap(pieces []string, reason string) (Done, error) {
	numbers, err := ScannedAll(pieces)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.Scrap{Pieces: numbers, Reason: reason})
}

// day reads a day as typed; nothing is unknown.
func (d *Desk) day(text string) (inventory.When, error) {
	if text == "" {
		return inventory.When{}, nil
	}
	when, err := inventory.ParseWhen(text, d.zone)
	if err != nil {
		return when, &inventory.BadValue{Reason: err.Error()}
	}
	return when, nil
}

// ScannedAll reads numbers as scanned or typed.
func ScannedAll(texts []string) ([]inventory.Number, error) {
	var numbers []inventory.Number
	for _, text := range texts {
		n, err := inventory.ScannedNumber(text)
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, n)
	}
	return numbers, nil
}

// AwayLine is a piece that somebody else has.
type AwayLine struct {
	PieceLine
	With      string             `json:"with,omitempty"`
	Reference string             `json:"reference,omitempty"`
	Since     string             `json:"since"`
	Due       string             `json:"due,omitempty"`
	Overdue   bool               `json:"overdue,omitempty"`
	Decision  inventory.Decision `json:"decision,omitempty"`
	Words     string             `json:"words"`
}

// Away lists the pieces that somebody else has; those that went with a player who was
// traded are his.
func (d *Desk) Away() ([]AwayLine, error) {
	lines := []AwayLine{}
	err := d.askNow(func(v *standing.Now) error {
		at := v.At
		for _, n := range inventory.OnceAway(v) {
			marks := inventory.MarksOf(v, n)
			custody := marks.CustodyAt(at)
			if custody.Ours() || custody.Custody == inventory.CustodyTraded {
				continue
			}
			line := AwayLine{
				PieceLine: pieceLine(v, n, at), With: custody.With, Reference: custody.Reference,
				Decision: custody.Decision, Words: custody.String(),
			}
			if went := marks.Custodies.Until(at); len(went) > 0 {
				line.Since = went[len(went)-1].When.SayDay(d.zone)
			}
			if !custody.Due.Unknown() {
				line.Due, line.Overdue = custody.Due.SayDay(d.zone), custody.Due.End.Before(at)
			}
			lines = append(lines, line)
		}
		return nil
	})
	return lines, err
}

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
