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
// black with what is to be expected of it, earlier runners in grey. Who names one of his
// pairs, or him and so his first one. Without an outlook nothing is foretold.
func (d *Desk) PlayerSVG(w io.Writer, who string, o *Outlook) error {
	at := d.Instant()
	var target Target
	h := plot.PlayerHeights{Title: "Height against passes: earlier runners grey, dashed what is to be expected"}
	curves := map[inventory.Number][]review.Curve{}
	name := ""
	err := d.book.Read(func(v inventory.View) (err error) {
		if target, err = lookUp(v, who, at); err != nil {
			return err
		}
		if target.Player == 0 {
			return notAPlayer(who)
		}
		p, err := inventory.PlayerOf(v, target.Player)
		if err != nil {
			return err
		}
		name = heading(p, at)
		if pair, err := pairMeant(v, target, at); err == nil {
			target.Pair, name = pair.Number, name+", "+pair.Role(at)+" pair"
		}
		addCurves(v, p, at, &h, curves)
		return nil
	})
	if err != nil {
		return err
	}
	if o != nil {
		first, others, _ := o.Due(target.Player)
		for _, due := range append(first, others...) {
			if due.Pair == target.Pair {
				showDue(due, curves, &h)
			}
		}
	}
	const width, height = 186, 78
	return h.Chart().Draw(width, height).WriteSVG(w, name+": height against passes")
}

// addCurves adds what the player's runners drew, those that are done with as earlier ones.
func addCurves(v inventory.View, p *inventory.Player, at time.Time, h *plot.PlayerHeights, curves map[inventory.Number][]review.Curve) {
	for _, set := range p.Sets {
		for _, n := range []inventory.Number{set.Left, set.Right} {
			runner, err := inventory.FindRunner(v, n)
			if err != nil {
				continue
			}
			all := review.CurvesOf(runner, at)
			curves[n] = all
			if runner.StateAt(at) == inventory.Removed && len(all) > 0 && len(all[0].Passes) > 1 {
				h.Earlier = append(h.Earlier, plot.Worn(all[0]))
			}
		}
	}
}

// showDue adds the set that is on, with its forecast.
func showDue(due Due, curves map[inventory.Number][]review.Curve, h *plot.PlayerHeights) {
	if due.Change != nil {
		h.Change = float64(*due.Change)
	}
	for _, side := range due.Sides {
		var parts []plot.Worn
		for _, curve := range curves[side.Runner] {
			parts = append(parts, plot.Worn(curve))
		}
		if side.Side == inventory.Left {
			h.Left = parts
		} else {
			h.Right = parts
		}
	}
	h.Ahead = ahead(due, *h)
}
