package demo

import (
	"steeltally/geometry"
	"steeltally/inventory"
	"testing"
	"time"
)

func TestScratch(t *testing.T) {
	for seed := range uint64(4) {
		c, m := played(t, Options{Seed: seed, End: endDay()})
		for ref, s := range m.states {
			if f, ok := s.(interface{ Flags() []inventory.Flag }); ok {
				for _, x := range f.Flags() {
					t.Log(ref, x)
				}
			}
		}
		t.Log(c.truth().Open)
		at := c.end
		causes := map[string]int{}
		for _, p := range c.players {
			cause := "ready"
			b := m.states[inventory.RefOf(p.spare.number)].(*inventory.Pair)
			set, _ := m.states[inventory.RefOf(b.SetAt(at))].(*inventory.Set)
			pl := m.states[inventory.RefOf(p.number)].(*inventory.Player)
			open := 0
			for _, s := range sides() {
				if h, ok := m.states[inventory.RefOf(b.HolderAt(s, at))].(*inventory.Holder); ok {
					open += len(h.OpenDamages(at))
				}
			}
			last := func(place string) time.Time {
				var x time.Time
				for _, e := range b.Places {
					if e.Value.Name == place {
						x = e.When.Start
					}
				}
				return x
			}
			d := p.first.on.height() - p.spareHeight()
			switch {
			case set == nil:
				cause = "missing"
			case open > 0:
				cause = "damage"
			case p.spare.on.hollow != *pl.SpecsAt(at).Hollow:
				cause = "hollow"
			case d > .5:
				cause = "low"
			case d < -.5:
				cause = "high"
			case !set.GroundSince(last(theIce), at):
				cause = "not ground"
			case at.Sub(b.Inspected[len(b.Inspected)-1].When.Start) > 30*24*time.Hour:
				cause = "not inspected"
			case at.Sub(last(theIce)) > 30*24*time.Hour:
				cause = "not tried"
			}
			causes[cause]++
			if cause != "ready" {
				t.Log(p.neglect, cause, d, p.turns, p.goalkeeper(), p.here(c.end), p.first.on.height()-p.low)
			}
		}
		t.Log(causes)
	}
}

func (p *player) spareHeight() (h geometry.Millimetre) {
	if p.spare.on == nil {
		return 0
	}
	return p.spare.on.height()
}
