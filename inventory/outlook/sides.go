package outlook

import (
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// sidesOf is what is known of each runner before a forecast.
func sidesOf(set *standing.Steel, e standing.Expected) []Side {
	var list []Side
	for side, height := range e.Heights.Each {
		list = append(list, Side{Side: side, Runner: set.Runner(side).Number, Height: *height})
	}
	return list
}

// tellSides adds what the forecast says of each runner.
func (o *Outlook) tellSides(d *Due, set *standing.Steel) {
	for i := range d.Sides {
		side := &d.Sides[i]
		forecast := d.forecast.Left
		if side.Side == inventory.Right {
			forecast = d.forecast.Right
		}
		side.Loss = forecast.Loss
		side.Left = max(0, (forecast.Height-float64(*d.Change))/forecast.Loss)
		if reading := set.Runner(side.Side).LastReading(o.At); reading != nil {
			side.Ends = lowEnds(*reading, *d.Change)
		}
	}
}

// lowEnds names the ends of a runner that are at or below the change height.
func lowEnds(r inventory.Reading, change geometry.Millimetre) []string {
	var ends []string
	if r.Toe != nil && *r.Toe <= change {
		ends = append(ends, "toe")
	}
	if r.Heel != nil && *r.Heel <= change {
		ends = append(ends, "heel")
	}
	return ends
}
