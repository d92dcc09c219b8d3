package demo

import (
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

const (
	homeWheel  = "wheel 1"
	roadWheel  = "road wheel"
	profiler   = "profiler"
	leastPause = 3 * time.Minute // between two grinds of one player
)

// visit is one stop of a player's first pair at the wheel.
func (c *club) visit(p *player, wheel string) {
	if !p.onFirst(c.now()) {
		return
	}
	if free := p.lastVisit.Add(leastPause); c.now().Before(free) {
		c.agenda.add(free, func() { c.visit(p, wheel) })
		return
	}
	p.lastVisit = c.now()
	if c.chance.happens(honeShare) {
		c.note(p, c.enter(deeds.Grind{Player: p.number, Work: inventory.WorkHone}))
		return
	}
	c.grind(p, wheel)
}

// grind is a grind of what is on, usually with the usual passes.
func (c *club) grind(p *player, wheel string) {
	left, right := p.passes, p.passes
	deed := deeds.Grind{Player: p.number, Machine: wheel}
	more := inventory.Side("")
	switch luck := c.chance.Float64(); {
	case luck < extraShare:
		left += c.chance.between(1, 2)
		right = left
		deed.Passes = passes(left, right)
	case luck < extraShare+unevenShare+evenedShare:
		more = oneOf(c.chance, inventory.Left, inventory.Right)
		if more == inventory.Left {
			right++
		} else {
			left++
		}
		deed.Passes = passes(left, right)
	}
	c.takeOff(p.first.on, left, right)
	c.sharpened(p.first)
	c.log(p, deed)
	if more != "" && c.chance.happens(evenedShare/(unevenShare+evenedShare)) {
		s := p.first.on
		c.later(time.Minute, func() { c.oneMore(p, s, more, wheel) })
	}
}

// oneMore evens a grind out.
func (c *club) oneMore(p *player, s *set, side inventory.Side, wheel string) {
	if p.first.on != s || !p.onFirst(c.now()) {
		return
	}
	deed := deeds.Grind{Player: p.number, Machine: wheel, More: true}
	deed.Passes.Put(side, new(1))
	left, right := 1, 0
	if side == inventory.Right {
		left, right = 0, 1
	}
	c.takeOff(p.first.on, left, right)
	p.lastVisit = c.now()
	c.note(p, c.enter(deed))
}

// sharpened is what a pair is after a grind.
func (c *club) sharpened(boots *pair) {
	boots.skated = false
	boots.on.ground, boots.on.hollow = true, boots.owner.hollow
	if boots.role == "first" && boots.on.isLow() {
		boots.owner.due = true
	}
}

// grindTogether is the grind before a practice as one entry for many.
func (c *club) grindTogether(players []*player) {
	deed := deeds.GrindMany{Each: deeds.Grind{Machine: homeWheel}}
	for _, p := range players {
		if !p.onFirst(c.now()) || c.now().Before(p.lastVisit.Add(leastPause)) {
			continue
		}
		p.lastVisit = c.now()
		c.takeOff(p.first.on, p.passes, p.passes)
		c.sharpened(p.first)
		deed.Players = append(deed.Players, p.number)
	}
	if len(deed.Players) == 0 {
		return
	}
	events := c.enter(deed)
	for _, p := range players {
		c.note(p, events)
	}
}

// nick is work to grind damage out.
func (c *club) nick(p *player) {
	if free := p.lastVisit.Add(leastPause); c.now().Before(free) {
		c.agenda.add(free, func() { c.nick(p) })
		return
	}
	if p.onFirst(c.now()) {
		c.settle(p)
		c.grindOut(p)
	}
}

// grindOut takes more passes than usual, and more of them on the side with the damage.
func (c *club) grindOut(p *player) {
	p.lastVisit = c.now()
	steel := c.steelOf(p)
	worse := c.chance.between(steel.DamagePasses[0], steel.DamagePasses[1])
	left, right := worse, max(2, worse-c.chance.between(0, 8))
	if c.chance.happens(.5) {
		left, right = right, left
	}
	c.takeOff(p.first.on, left, right)
	c.sharpened(p.first)
	c.enter(deeds.Grind{Player: p.number, Work: inventory.WorkNick, Passes: passes(left, right), Machine: homeWheel})
}

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
