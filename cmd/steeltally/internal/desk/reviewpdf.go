package desk

import (
	"fmt"
	"io"

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
	return plot.NewPage(p.paper.Width, p.paper.Height, title, foot)
}
