package outlook

import (
	"errors"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// tellWhyNot says why there is no forecast until a height was taken: of each runner, and
// of the set.
func (d *Due) tellWhyNot(why *wear.PairError) {
	for i := range d.Sides {
		side := &d.Sides[i]
		side.CannotSay = whyNot(why.Left)
		if side.Side == inventory.Right {
			side.CannotSay = whyNot(why.Right)
		}
	}
	d.CannotSay = "can't say until measured: " + d.WhyNot()
}

// WhyNot is why the runners have to be measured before there is a forecast; empty where
// that is not what it lacks.
func (d *Due) WhyNot() string {
	var whys []string
	same := true
	for _, side := range d.Sides {
		same = same && side.CannotSay == d.Sides[0].CannotSay
		if side.CannotSay != "" {
			whys = append(whys, string(side.Side)+" "+side.CannotSay)
		}
	}
	if same && len(whys) > 0 {
		return d.Sides[0].CannotSay
	}
	return strings.Join(whys, ", ")
}

func whyNot(err error) string {
	switch {
	case errors.Is(err, wear.ErrPassesUnknown):
		return "some passes were not counted"
	case errors.Is(err, wear.ErrNoReading):
		return "no height is known to begin with"
	}
	return ""
}
