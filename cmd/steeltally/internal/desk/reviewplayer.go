package desk

import (
	"fmt"
	"slices"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/review"
	"steeltally/labels/drawing"
	"steeltally/labels/plot"
)

// player is one player's page.
func (p *reviewPages) player(player *PlayerReview) drawing.Drawing {
	page := p.page(player.Say())
	for _, line := range p.facts(player) {
		page.Note(line)
	}
	page.Skip()
	page.Row(p.heights(player).Chart().Draw(page.Inside(), 78))
	page.Row(p.strip(player, page.Inside()))
	const height = 52
	page.Row(
		plot.Removals("Height at removal", p.removals(player), false).Draw(page.Part(2), height),
		plot.SetsApart("Left against right", player.SetsApart()).Draw(page.Part(2), height))
	page.Row(p.lastSets(player, page.RowsThatFit(0)).Draw(page.Inside()))
	return page.Drawing
}

// facts are the player's figures in words.
func (p *reviewPages) facts(player *PlayerReview) []string {
	lines := []string{fmt.Sprintf("%s done with, %s; a set lasts %s days, %s sessions, %s grinds (the middle one, lowest to highest).",
		SayCount(len(player.Sets), "set"), SayCount(player.Pieces, "piece"), saySpread(player.Days, 0), saySpread(player.Times, 0), saySpread(player.Grinds, 0))}
	if loss := player.Loss; loss.Sets > 0 {
		lines = append(lines, fmt.Sprintf("A pass takes about %.4f mm off (%.4f to %.4f), from %s.", loss.Middle, loss.Low, loss.High, SayCount(loss.Sets, "set")))
	}
	if player.Heights.N > 0 {
		line := fmt.Sprintf("Taken off at %s mm; %d of %d runners below the change height", saySpread(player.Heights, 1), player.Below, player.Heights.N)
		if player.Refused > 0 {
			line += fmt.Sprintf(", %d of them after he had said no", player.Refused)
		}
		lines = append(lines, line+".")
	}
	for _, f := range p.review.Findings {
		if f.Kind == "sides" && f.About == player.Say() {
			lines = append(lines, f.Words)
		}
	}
	if due, on := p.due[player.Number]; on {
		lines = append(lines, sayOn(due))
	}
	return lines
}

// sayOn tells of the set that is on.
func sayOn(due Due) string {
	if due.Passes == nil {
		return fmt.Sprintf("Set %s is on: %s.", due.Letter, due.CannotSay)
	}
	line := fmt.Sprintf("Set %s is on: about %.0f passes left (%.0f to %.0f)", due.Letter, due.Passes.Middle, due.Passes.Low, due.Passes.High)
	if due.Dates != nil && !due.Dates.Middle.IsZero() {
		line += ", due about " + due.Dates.Middle.Format("2 Jan")
	}
	return line + "."
}

// saySpread is the middle one, from the lowest to the highest.
func saySpread(s Spread, decimals int) string {
	if s.N == 0 {
		return "–"
	}
	if s.Low == s.High {
		return fmt.Sprintf("%.*f", decimals, s.Middle)
	}
	return fmt.Sprintf("%.*f (%.*f–%.*f)", decimals, s.Middle, decimals, s.Low, decimals, s.High)
}

// heights are the player's steel: earlier runners, and what is on.
func (p *reviewPages) heights(player *PlayerReview) plot.PlayerHeights {
	h := plot.PlayerHeights{Title: "Height against passes: earlier runners grey, what is on black; dashed, and due within the bold line"}
	for _, life := range player.Lives() {
		if life.Steel() && !life.InUse {
			if c := life.Curve(p.review.At); len(c.Passes) > 1 {
				h.Earlier = append(h.Earlier, plot.Worn(c))
			}
			if life.Change != nil {
				h.Change = float64(*life.Change)
			}
		}
	}
	if due, on := p.due[player.Number]; on {
		showDue(due, p.curves, &h)
	}
	return h
}

// ahead is the forecast of the side that is due first.
func ahead(due Due, h plot.PlayerHeights) *plot.Ahead {
	if due.Passes == nil {
		return nil
	}
	a := &plot.Ahead{Low: due.Passes.Low, Middle: due.Passes.Middle, High: due.Passes.High}
	for i, side := range due.Sides {
		if i > 0 && float64(*side.Now) >= a.Height {
			continue
		}
		parts := h.Left
		if side.Side == inventory.Right {
			parts = h.Right
		}
		last, measured := plot.End(parts)
		a.Passes, a.Height = last.Passes+float64(due.Measure.Since), float64(*side.Now)
		a.LastPasses, a.Last = a.Passes, a.Height
		if measured {
			a.LastPasses, a.Last = last.Passes, last.Height
		}
	}
	return a
}

// strip is when the player's sets went on and came off.
func (p *reviewPages) strip(player *PlayerReview, width geometry.Millimetre) drawing.Drawing {
	var uses []plot.Use
	for _, set := range player.Sets {
		if !set.In.Unknown() && !set.Out.Unknown() {
			uses = append(uses, plot.Use{From: p.local(set.In.Start), Until: p.local(set.Out.Start), Name: fmt.Sprint(set.Place), Broken: set.Broke()})
		}
	}
	slices.SortStableFunc(uses, func(a, b plot.Use) int { return a.From.Compare(b.From) })
	return plot.Strip("Sets on and off, numbered as they came off; a cross where one broke", uses, p.local(p.review.At), width)
}

// lastSets is a table of the last sets, as many as there is room for.
func (p *reviewPages) lastSets(player *PlayerReview, most int) plot.Rows {
	rows := plot.Rows{Title: "The last sets", Columns: []plot.Column{
		{Title: "set", Width: 12, Right: true}, {Title: "off", Width: 28, Right: true}, {Title: "days", Width: 14, Right: true},
		{Title: "grinds", Width: 16, Right: true}, {Title: "passes l/r", Width: 28, Right: true}, {Title: "left, mm", Width: 24, Right: true},
		{Title: "right, mm", Width: 24, Right: true}, {Title: "reason", Width: 30, Right: true},
	}}
	sets := player.Sets
	for _, set := range sets[max(0, len(sets)-most):] {
		rows.Cells = append(rows.Cells, p.setRow(set))
	}
	return rows
}

func (p *reviewPages) setRow(set *review.WornSet) []plot.Cell {
	heights, passes := [2]string{"–", "–"}, [2]string{"–", "–"}
	days, grinds, reason := "–", "–", "–"
	for i, life := range []*Life{set.Left, set.Right} {
		if life == nil {
			continue
		}
		if life.Final != nil {
			heights[i] = fmt.Sprintf("%.2f", float64(*life.Final))
		}
		passes[i] = fmt.Sprint(life.Passes)
		if life.Unknown {
			passes[i] += "+?"
		}
		if life.Days != nil {
			days = fmt.Sprint(*life.Days)
		}
		grinds, reason = fmt.Sprint(life.Grinds), string(life.Reason)
	}
	off := "date unknown"
	if !set.Out.Unknown() {
		off = p.day(set.Out.Start)
	}
	return []plot.Cell{{Text: fmt.Sprint(set.Place)}, {Text: off}, {Text: days}, {Text: grinds}, {Text: passes[0] + " / " + passes[1]}, {Text: heights[0]}, {Text: heights[1]}, {Text: reason}}
}
