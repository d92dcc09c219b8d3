package demo

import (
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// How much higher than last time the record takes a height without asking, and how much
// lower a person believes it at once.
const (
	caliperSlack geometry.Millimetre = .3
	believedDrop geometry.Millimetre = 3
)

// read measures what is on the boot of a side. A height that is higher than the last one,
// or far lower, is measured again; if the record still takes it for a slip, it is kept
// as read.
func (c *club) read(s *set, side inventory.Side, reference inventory.Reference) geometry.Millimetre {
	caliper := c.steelOf(s.owner).Caliper
	if reference == inventory.Fitted {
		caliper.Spread *= fittedSpread
	}
	last, known := s.of(side).last(reference)
	height := geometry.Millimetre(0)
	for range 2 {
		height = caliper.MeasureCarelessly(c.chance.Rand, s.on(side).steel.Height, slipShare)
		if !known || height <= last.height+caliperSlack && height >= last.height-believedDrop {
			break
		}
	}
	return height
}

// undoSlip takes back a height that was read far too low or too high, once the next one
// shows it.
func (c *club) undoSlip(s *set, reference inventory.Reference) {
	for _, side := range sides() {
		last, known := s.of(side).last(reference)
		now := s.on(side).steel.Height
		if !known || last.height > now-2*caliperSlack && last.height < now+believedDrop {
			continue
		}
		at := slices.IndexFunc(s.entries, func(e inventory.Event) bool { return e.Key == last.key })
		if at < 0 || s.entries[at].More > 0 || s.entries[at].Body.Kind() != "measure" {
			continue
		}
		c.enter(deeds.Undo{Events: []inventory.Event{s.entries[at]}, Words: "misread"})
	}
}

// settleDoubts says a word on heights that were kept as read some days ago: right, where
// the one before was too low, or misread.
func (c *club) settleDoubts() {
	for _, e := range slices.Clone(c.doubts) {
		if c.now().Sub(e.Noted) < 24*time.Hour || c.chance.happens(.5) {
			continue
		}
		if c.isMisread(e.Body.(*inventory.Measured)) {
			c.enter(deeds.Undo{Events: []inventory.Event{e}, Words: "misread"})
		} else {
			c.enter(deeds.KeepAll{Events: []inventory.Event{e}, Words: "the height is right"})
		}
	}
}

// isMisread tells whether a height was far from what the steel has by now.
func (c *club) isMisread(b *inventory.Measured) bool {
	return slices.ContainsFunc(b.Heights, func(h inventory.Height) bool {
		r := c.runners[h.Runner]
		return h.AsRead && r != nil && (*h.Middle > r.steel.Height+3*caliperSlack || *h.Middle < r.steel.Height-3*caliperSlack)
	})
}

// heights reads both sides of a set, the middle or all three places.
func (c *club) heights(s *set, reference inventory.Reference) (heights inventory.Both[inventory.Height]) {
	three := c.chance.happens(threePointShare)
	for _, side := range sides() {
		middle := c.read(s, side, reference)
		height := inventory.Height{Middle: &middle}
		if three {
			height.Toe, height.Heel = new(c.beside(middle, toeDrop)), new(c.beside(middle, heelDrop))
		}
		heights.Put(side, &height)
	}
	return heights
}

// beside is the height at toe or heel: lower by the profile, to the caliper's tenth.
func (c *club) beside(middle, drop geometry.Millimetre) geometry.Millimetre {
	tenths := int(float64(middle-drop)*10 + c.chance.NormFloat64())
	return geometry.Millimetre(max(tenths, 55)) / 10
}

// measure measures what is on a player's pair, fitted.
func (c *club) measure(p *player, boots *pair) {
	c.settle(p)
	if c.chance.happens(.6) {
		c.undoSlip(boots.on, inventory.Fitted)
	}
	heights := c.heights(boots.on, inventory.Fitted)
	c.enter(measured(func(v inventory.View, m deeds.Moment) (deeds.MeasureSteel, error) {
		return deeds.MeasureOn(v, p.number, boots.number, heights, m)
	}))
}

// measureSet measures a set in the hand, loose.
func (c *club) measureSet(s *set) {
	heights := c.heights(s, inventory.Loose)
	c.enter(measured(func(v inventory.View, _ deeds.Moment) (deeds.MeasureSteel, error) {
		return deeds.MeasureSet(v, s.number, heights)
	}))
}

// measured is a measurement of which the record finds the runners; it is kept as read.
type measured func(v inventory.View, m deeds.Moment) (deeds.MeasureSteel, error)

func (d measured) Decide(v inventory.View, m deeds.Moment) (deeds.Outcome, error) {
	deed, err := d(v, m)
	if err != nil {
		return deeds.Outcome{}, err
	}
	deed.AsRead = true
	return deed.Decide(v, m)
}
