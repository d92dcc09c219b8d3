package desk

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/review"
	"steeltally/labels/drawing"
	"steeltally/labels/pdf"
	"steeltally/labels/plot"
	"steeltally/labels/report"
)

// reviewPages draws a review's pages.
type reviewPages struct {
	review Review
	paper  report.Paper
	desk   *Desk // nil where there is no book
	due    map[inventory.Number]Due
	curves map[inventory.Number][]review.Curve // of runners that are on
	stock  plot.StockLeft
	pages  []drawing.Drawing
}

// PrintReview writes a review: a page for the wall, then one for each player.
func (d *Desk) PrintReview(r Review, sheet Sheet) (Written, error) {
	p := reviewPages{review: r, desk: d, due: map[inventory.Number]Due{}, curves: map[inventory.Number][]review.Curve{}}
	o, err := d.look(r.At)
	if err != nil {
		return Written{}, err
	}
	first, _, unworked := o.Due()
	d.options.keepUnworked("what is due", unworked)
	p.review.Unworked = append(p.review.Unworked, unworked...)
	err = d.book.Read(func(v inventory.View) error {
		for _, due := range first {
			p.due[due.Player] = due
			for _, side := range due.Sides {
				if runner, err := inventory.FindRunner(v, side.Runner); err == nil {
					p.curves[side.Runner] = review.CurvesOf(runner, r.At)
				}
			}
		}
		return nil
	})
	if err != nil {
		return Written{}, err
	}
	if p.stock, err = d.stockLeft(o, r.At); err != nil {
		return Written{}, err
	}
	return p.print(sheet)
}

// PrintReviewOfTags writes a review where there is no book.
func PrintReviewOfTags(r Review, sheet Sheet) (Written, error) {
	return (&reviewPages{review: r}).print(sheet)
}

func (p *reviewPages) print(sheet Sheet) (Written, error) {
	var err error
	if p.paper, err = sheet.paper(); err != nil {
		return Written{}, err
	}
	if !p.review.OnePlayer {
		p.pages = append(p.pages, p.wall())
	}
	for _, player := range p.review.Players {
		if player.Known() && (len(player.Sets) > 0 || p.review.OnePlayer) {
			p.tryPlayer(player)
		}
	}
	if len(p.pages) == 0 {
		return Written{}, &inventory.Refusal{Reason: "nothing is done with yet, so there is nothing to draw", Hint: "steeltally due tells of what is in use"}
	}
	written := Written{File: sheet.File, Pages: len(p.pages)}
	for _, u := range p.review.Unworked {
		written.Notices = append(written.Notices, inventory.Notice{Text: u.Whose() + ": " + u.Say(), Hint: UnworkedHint(u)})
	}
	return written, writeDrawings(sheet.outlet(), p.pages)
}

// tryPlayer draws a player's page; one that can't be drawn leaves the others'.
func (p *reviewPages) tryPlayer(player *PlayerReview) {
	err := inventory.Guard(func() error {
		p.pages = append(p.pages, p.player(player))
		return nil
	})
	if err != nil {
		p.review.Unworked = append(p.review.Unworked, inventory.Unworked{About: player.Number, Sweater: player.Sweater, Name: player.Name, Cause: err})
	}
}

// writeDrawings writes drawings as the pages of a PDF.
func writeDrawings(to outlet, pages []drawing.Drawing) error {
	document, err := pdf.New()
	if err != nil {
		return err
	}
	for _, page := range pages {
		if err := document.AddDrawing(page); err != nil {
			return err
		}
	}
	return to.write(func(w io.Writer) error {
		_, err := document.WriteTo(w)
		return err
	})
}

// page starts a page.
func (p *reviewPages) page(title string) *plot.Page {
	foot := fmt.Sprintf("%s, until %s. Ranges hold in 8 cases of 10.", p.review.Scope, p.day(p.review.At))
	if len(p.pages) == 0 { // once, where whoever takes the paper begins
		foot = "Steel is sharp; cracked steel is not skated on. " + foot
	}
	return plot.NewPage(p.paper.Width, p.paper.Height, title, foot)
}

// Picture is a drawing for a screen.
type Picture struct {
	Title string
	SVG   []byte
}

// ReviewPictures draws for a screen what the page for the wall draws on paper.
func ReviewPictures(r Review) ([]Picture, error) {
	p := reviewPages{review: r}
	const width, height = 120, 60
	var pictures []Picture
	draw := func(title string, d drawing.Drawing) error {
		var svg bytes.Buffer
		err := d.WriteSVG(&svg, title)
		pictures = append(pictures, Picture{title, svg.Bytes()})
		return err
	}
	if removals := p.removals(nil); len(removals) > 0 {
		title := "Height at removal, and the middle of each month"
		if err := draw(title, plot.Removals(title, removals, p.changesKnown()).Draw(width, height)); err != nil {
			return nil, err
		}
		title = "When skaters' runners leave use"
		if err := draw(title, p.leaving().Chart(title).Draw(width, height)); err != nil {
			return nil, err
		}
	}
	if damages := p.damages(nil); len(damages) > 0 {
		title := "Cracks, breaks and bends"
		if err := draw(title, plot.Damages(title, damages, width)); err != nil {
			return nil, err
		}
	}
	return pictures, nil
}

// Sizes on the page for the wall, in mm.
const (
	wallChart geometry.Millimetre = 48
	wallGaps  geometry.Millimetre = 14 // between the charts and above them
)

// wall is the page for the wall: what stands out, a row a player, and the club's pictures.
func (p *reviewPages) wall() drawing.Drawing {
	title := "Steel that is done with"
	if p.review.Club != "" {
		title = p.review.Club + ": steel"
	}
	page := p.page(title)
	p.standsOut(page)
	page.Skip()
	rows, left := p.wallRows(page.RowsThatFit(2*wallChart + wallGaps))
	page.Row(rows.Draw(page.Inside()))
	if left > 0 {
		page.Note(fmt.Sprintf("%d more players with fewer sets have a page of their own behind.", left))
	}
	page.Row(
		plot.Removals("Height at removal, and the middle of each month", p.removals(nil), p.changesKnown()).Draw(page.Part(2), wallChart),
		p.leaving().Chart("When skaters' runners leave use").Draw(page.Part(2), wallChart))
	var below []drawing.Drawing
	if damages := p.damages(nil); len(damages) > 0 {
		below = append(below, plot.Damages("Cracks, breaks and bends", damages, page.Part(2)))
	}
	if len(p.stock.Days) > 0 {
		below = append(below, p.stock.Chart("Sets left, ready and on the shelf").Draw(page.Part(2), wallChart))
	}
	page.Row(below...)
	return page.Drawing
}

// standsOut tells what differs, or that nothing does.
func (p *reviewPages) standsOut(page *plot.Page) {
	told := 0
	for _, f := range p.review.Findings {
		if f.Verdict == Differs && told < 5 {
			told++
			page.Note("• " + f.Words)
		}
	}
	if told == 0 {
		page.Note("Nothing stands out that chance alone could not bring about.")
	}
}

// wallRows are the players with most sets, in sweater order, and how many are left out.
func (p *reviewPages) wallRows(most int) (plot.Rows, int) {
	players := slices.DeleteFunc(slices.Clone(p.review.Players), func(player *PlayerReview) bool { return len(player.Sets) == 0 || !player.Known() })
	left := max(0, len(players)-most)
	slices.SortStableFunc(players, func(a, b *PlayerReview) int { return cmp.Compare(len(b.Sets), len(a.Sets)) })
	players = players[:len(players)-left]
	slices.SortStableFunc(players, func(a, b *PlayerReview) int { return cmp.Compare(a.Sweater, b.Sweater) })
	rows := plot.Rows{Title: "Player by player", Columns: []plot.Column{
		{Title: "", Width: 9}, {Title: "player", Width: 38}, {Title: "sets", Width: 10, Right: true}, {Title: "days a set", Width: 20, Right: true},
		{Title: "mm lost a pass", Width: 36, Spans: true}, {Title: "off above change, mm", Width: 37, Spans: true, Marked: true},
		{Title: "left wears more, %", Width: 36, Spans: true, Marked: true},
	}}
	for _, player := range players {
		rows.Cells = append(rows.Cells, p.wallRow(player))
	}
	return rows, left
}

func (p *reviewPages) wallRow(player *PlayerReview) []plot.Cell {
	row := []plot.Cell{{Text: sweaterOf(player)}, {Text: player.Name}, {Text: fmt.Sprint(len(player.Sets))}, {Text: "–"}, {Text: "can't say"}, {Text: "–"}, {Text: "–"}}
	if player.Days.N > 0 {
		row[3].Text = fmt.Sprintf("%.0f", player.Days.Middle)
	}
	if loss := player.Loss; loss.Sets > 0 {
		row[4] = plot.Cell{Span: true, Low: loss.Low, Middle: loss.Middle, High: loss.High}
	}
	if above := p.aboveChange(player); len(above) > 0 {
		row[5] = plot.Cell{Span: true, Low: above[0], Middle: above[len(above)/2], High: above[len(above)-1], Stands: 2*player.Below > player.Heights.N}
	}
	if s := player.Sides; s.Sets > 1 && !math.IsInf(s.High, 1) {
		row[6] = plot.Cell{Span: true, Low: 100 * (s.Low - 1), Middle: 100 * (s.Ratio - 1), High: 100 * (s.High - 1), Stands: s.Verdict == Differs}
	}
	return row
}

func sweaterOf(player *PlayerReview) string {
	if player.Sweater == 0 {
		return "–"
	}
	return fmt.Sprint(player.Sweater)
}

// aboveChange are the heights at removal above the change height, from the lowest on.
func (p *reviewPages) aboveChange(player *PlayerReview) []float64 {
	var above []float64
	for _, r := range p.removals(player) {
		if r.Change > 0 && !r.Broken {
			above = append(above, r.Height-r.Change)
		}
	}
	slices.Sort(above)
	return above
}

// changesKnown tells whether any change height is known: tags do not carry them.
func (p *reviewPages) changesKnown() bool {
	return slices.ContainsFunc(p.review.Removals, func(l *Life) bool { return l.Change != nil })
}

// removals are the runners taken off with a height, of one player or of all.
func (p *reviewPages) removals(player *PlayerReview) []plot.Removed {
	var list []plot.Removed
	for _, life := range p.review.Removals {
		if life.Final == nil || life.Out.Unknown() || player != nil && !player.Has(life) {
			continue
		}
		r := plot.Removed{On: p.local(life.Out.Start), Height: float64(*life.Final), Broken: life.BrokenOff()}
		if life.Change != nil {
			r.Change = float64(*life.Change)
		}
		list = append(list, r)
	}
	return list
}

func (p *reviewPages) leaving() plot.Leaving {
	l := plot.Leaving{Unit: p.review.Reasons.Unit}
	for _, step := range p.review.Reasons.Steps {
		l.Times = append(l.Times, step.Time)
		l.Low, l.Breakage, l.Rest = append(l.Low, step.Incidence[0]), append(l.Breakage, step.Incidence[1]), append(l.Rest, step.Incidence[2])
	}
	return l
}

// damages count what made pieces unsafe, by place, of one player or of all.
func (p *reviewPages) damages(player *PlayerReview) []plot.Damage {
	counts := map[plot.Damage]int{}
	for _, one := range p.review.Players {
		if player != nil && one != player {
			continue
		}
		for _, life := range one.Lives() {
			for _, damage := range life.Damages {
				if damage.Value.Unsafe {
					counts[plot.Damage{Zone: string(damage.Value.Zone), Left: life.Side == inventory.Left, Runner: life.Steel()}]++
				}
			}
		}
	}
	var list []plot.Damage
	for damage, count := range counts {
		damage.Count = count
		list = append(list, damage)
	}
	slices.SortFunc(list, func(a, b plot.Damage) int { return cmp.Or(cmp.Compare(a.Count, b.Count), cmp.Compare(a.Zone, b.Zone)) })
	return list
}

func (p *reviewPages) local(t time.Time) time.Time {
	if p.desk == nil {
		return t
	}
	return t.In(p.desk.zone)
}

func (p *reviewPages) day(t time.Time) string { return p.local(t).Format("2 Jan 2006") }
