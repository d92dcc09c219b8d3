package desk

import (
	"io"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/review"
	"steeltally/inventory/standing"
	"steeltally/labels/plot"
)

// PlayerSteel is a player's steel as it was read, to be drawn for a screen.
type PlayerSteel struct {
	target  Target
	name    string
	heights plot.PlayerHeights
	curves  map[inventory.Number][]review.Curve
}

// PlayerSteel reads a player's steel. Who names one of his pairs, or him and so his first one.
func (d *Desk) PlayerSteel(who string) (PlayerSteel, error) {
	at := d.Instant()
	s := PlayerSteel{curves: map[inventory.Number][]review.Curve{}}
	s.heights.Title = "Height against passes: earlier runners grey, dashed what is to be expected"
	err := d.book.Read(func(v inventory.View) (err error) {
		if s.target, err = lookUp(v, who, at); err != nil {
			return err
		}
		if s.target.Player == 0 {
			return notAPlayer(who)
		}
		p, err := inventory.PlayerOf(v, s.target.Player)
		if err != nil {
			return err
		}
		s.name = heading(p, at)
		if pair, err := pairMeant(v, s.target, at); err == nil {
			s.target.Pair, s.name = pair.Number, s.name+", "+pair.Role(at).Pair()
		}
		addCurves(v, p, at, &s.heights, s.curves)
		return nil
	})
	return s, err
}

// WriteSVG draws height against passes: what is on in black with what is to be expected
// of it, earlier runners in grey. Without an outlook nothing is foretold.
func (s PlayerSteel) WriteSVG(w io.Writer, o *Outlook) error {
	h := s.heights
	if o != nil {
		first, others, _ := o.Due(s.target.Player)
		for _, due := range append(first, others...) {
			if due.Pair == s.target.Pair {
				showDue(due, s.curves, &h)
			}
		}
	}
	const width, height = 186, 78
	return h.Chart().Draw(width, height).WriteSVG(w, s.name+": height against passes")
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
			if standing.RunnerState(v, runner, at) == inventory.Removed && len(all) > 0 && len(all[0].Passes) > 1 {
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
