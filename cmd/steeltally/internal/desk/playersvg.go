package desk

import (
	"io"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/outlook"
	"steeltally/inventory/review"
	"steeltally/labels/plot"
)

// Outlook is what was learnt from all of the club's steel. It takes a while to learn and
// changes slowly, so that a screen keeps it.
type Outlook = outlook.Outlook

// Learn learns from all of the club's steel as it is now.
func (d *Desk) Learn() (*Outlook, error) { return d.look(d.Instant()) }

// PlayerSVG draws a player's steel for a screen: height against passes, what is on in
// black with what is to be expected of it, earlier runners in grey. Without an outlook
// nothing is foretold.
func (d *Desk) PlayerSVG(w io.Writer, player string, o *Outlook) error {
	at := d.Instant()
	var number inventory.Number
	h := plot.PlayerHeights{Title: "Height against passes: earlier runners grey, dashed what is to be expected"}
	curves := map[inventory.Number]review.Curve{}
	name := ""
	err := d.book.Read(func(v inventory.View) error {
		var err error
		if number, err = resolvePlayer(v, player, at); err != nil {
			return err
		}
		p, err := inventory.PlayerOf(v, number)
		if err != nil {
			return err
		}
		name = d.heading(p, at)
		addCurves(v, p, at, &h, curves)
		return nil
	})
	if err != nil {
		return err
	}
	if o != nil {
		first, _, err := o.Due(number)
		if err != nil {
			return err
		}
		for _, due := range first {
			showDue(due, curves, &h)
		}
	}
	const width, height = 186, 78
	return h.Chart().Draw(width, height).WriteSVG(w, name+": height against passes")
}

// addCurves adds what the player's runners drew, those that are done with as earlier ones.
func addCurves(v inventory.View, p *inventory.Player, at time.Time, h *plot.PlayerHeights, curves map[inventory.Number]review.Curve) {
	for _, set := range p.Sets {
		for _, n := range []inventory.Number{set.Left, set.Right} {
			runner, err := inventory.FindRunner(v, n)
			if err != nil {
				continue
			}
			curve := review.CurveOf(runner, at)
			curves[n] = curve
			if runner.StateAt(at) == inventory.Removed && len(curve.Passes) > 1 {
				h.Earlier = append(h.Earlier, plot.Worn(curve))
			}
		}
	}
}

// showDue adds the set that is on, with its forecast.
func showDue(due Due, curves map[inventory.Number]review.Curve, h *plot.PlayerHeights) {
	if due.Change != nil {
		h.Change = float64(*due.Change)
	}
	for _, side := range due.Sides {
		if c := plot.Worn(curves[side.Runner]); side.Side == inventory.Left {
			h.Left = c
		} else {
			h.Right = c
		}
	}
	h.Ahead = ahead(due, *h)
}
