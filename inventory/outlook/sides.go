package outlook

import (
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// sides is what is known of each runner before a forecast.
func (o *Outlook) sides(u use, set *steel) []Side {
	var list []Side
	for side, series := range u.series.Each {
		s := Side{Side: side, Runner: set.runner(side).Number, Last: series.Last(), Reference: series.Reference, since: series.Since}
		s.reading = set.runner(side).LastReading(o.at)
		list = append(list, s)
	}
	return list
}

// tellSides adds what the forecast says of each runner.
func (d *Due) tellSides(u use) {
	for i := range d.Sides {
		side := &d.Sides[i]
		forecast := d.forecast.Left
		if side.Side == inventory.Right {
			forecast = d.forecast.Right
		}
		side.Height, side.Loss = geometry.Millimetre(forecast.Height), forecast.Loss
		side.Left = max(0, (forecast.Height-float64(*d.Change))/forecast.Loss)
		side.Doubts = doubts(*u.series.Of(side.Side), forecast.Sound)
		if side.reading != nil {
			side.Ends = lowEnds(*side.reading, *d.Change)
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

// doubts picks the readings of the last stretch that are more likely bad than sound.
func doubts(series inventory.Series, sound []float64) []Doubt {
	if len(series.Stretches) == 0 {
		return nil
	}
	readings := series.Stretches[len(series.Stretches)-1].Readings
	skipped := len(readings) - len(sound) // the one that a stretch begins with is not judged
	var list []Doubt
	for i, chance := range sound {
		last := i == len(sound)-1
		switch wear.ReadingDoubt(chance, last) {
		case wear.NotUsed:
			list = append(list, Doubt{Worn: readings[skipped+i]})
		case wear.MeasureAgain:
			list = append(list, Doubt{readings[skipped+i], true})
		}
	}
	return list
}

// low tells whether the last height, not in doubt, is at or below the change height.
func (s Side) low(change geometry.Millimetre) bool {
	if s.Last == nil || s.Last.Height > change {
		return false
	}
	for _, doubt := range s.Doubts {
		if doubt.Again {
			return false
		}
	}
	return true
}
