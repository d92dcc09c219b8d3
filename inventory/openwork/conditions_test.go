package openwork_test

import (
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/sparepair"
)

// condition is one of those that a ready pair meets: how it is broken alone, what is told
// then, and how it is mended again.
type condition struct {
	name  string
	spoil func(c *club, s *skater)
	state sparepair.State
	fix   sparepair.Fix
	what  string
	mend  func(c *club, s *skater)
}

// conditionsOfSteel are what a pair is made of and ground to.
func conditionsOfSteel(t *testing.T) []condition {
	return []condition{
		{
			"steel taken out", func(c *club, s *skater) {
				c.do(days(2), deeds.TakeOut{Player: s.number, Pair: s.spare, Reason: "rotate"})
			}, sparepair.Fixable, sparepair.FixSteel, "no steel in it", func(c *club, s *skater) {
				c.do(days(1), deeds.PutSetIn{Player: s.number, Set: s.sets[1], Pair: s.spare})
			},
		},
		{
			"loose rivet", func(c *club, s *skater) {
				c.do(days(2), deeds.ReportDamage{Piece: s.holders["spare left"], Mode: "loose-rivet", Zone: "rear-tower"})
			}, sparepair.Fixable, sparepair.FixDamage, "open: H1-3-37, loose-rivet rear-tower", func(c *club, s *skater) {
				c.do(days(1), deeds.Inspect{Piece: s.holders["spare left"], Sound: true})
			},
		},
		{
			"other hollow", func(c *club, s *skater) {
				c.do(days(2), deeds.NoteSpecs{Player: s.number, Specs: inventory.Specs{Hollow: cut(t, "3/8in")}})
			}, sparepair.Fixable, sparepair.FixHollow, "hollow 1/2 in against 3/8 in", func(c *club, s *skater) {
				c.do(days(1), deeds.Grind{Player: s.number, Pair: s.spare, Work: "new-hollow", Hollow: cut(t, "3/8in")})
			},
		},
		{
			"other profile", func(c *club, s *skater) {
				c.do(days(2), deeds.NoteSpecs{Player: s.number, Specs: inventory.Specs{Profile: inventory.Profile{3048}}})
			}, sparepair.Fixable, sparepair.FixProfile, "profile 11 ft against 10 ft", func(c *club, s *skater) {
				c.do(days(1), deeds.Grind{Player: s.number, Pair: s.spare, Work: "profile", Unknown: true})
				c.do(days(1), deeds.MeasureSteel{Player: s.number, Heights: []inventory.Height{{Runner: s.spareRunners[0], Middle: mm(11.75)}, {Runner: s.spareRunners[1], Middle: mm(11.75)}}})
			},
		},
		{
			"other pitch", func(c *club, s *skater) {
				c.do(days(150), deeds.NoteSpecs{Player: s.number, Specs: inventory.Specs{Pitch: mm(0)}})
				c.do(days(2), deeds.NoteSpecs{Player: s.number, Specs: inventory.Specs{Pitch: mm(1.5)}})
			}, sparepair.Fixable, sparepair.FixPitch, "pitch neutral 0.00 mm against pitch forward 1.50 mm", func(c *club, s *skater) {
				c.do(days(1), deeds.NotePitch{Pair: s.spare, Pitch: 1.5})
			},
		},
	}
}

// conditionsOfUse are what was done with a pair, and where it is.
func conditionsOfUse() []condition {
	return []condition{
		{
			"played on", func(c *club, s *skater) { c.do(days(2), deeds.NoteSkated{Pair: s.spare, Game: true}) },
			sparepair.Fixable, sparepair.FixGrind, "not ground since it was skated",
			func(c *club, s *skater) { c.do(days(1), deeds.Grind{Player: s.number, Pair: s.spare}) },
		},
		{
			"sent away", func(c *club, s *skater) {
				c.do(days(2), deeds.HandOver{Pieces: []inventory.Number{s.spare}, Custody: "national", With: "Cold Coast"})
			}, sparepair.Missing, "", "with the national team (Cold Coast)", func(c *club, s *skater) {
				c.do(days(1), deeds.TakeBack{Pieces: []inventory.Number{s.spare}, NotGround: true})
				c.is(s, sparepair.Fixable, sparepair.FixLook, "nobody looked at bolts and rivets of the left holder")
				c.do(days(1), deeds.Inspect{Piece: s.spare, Sound: true})
			},
		},
		{
			"he would rather not", func(c *club, s *skater) { c.do(days(2), deeds.NoteTry{Pair: s.spare, Declined: true}) },
			sparepair.Declined, "", "", func(c *club, s *skater) { c.do(days(1), deeds.NoteTry{Pair: s.spare}) },
		},
		{
			"lower than the club allows", func(c *club, s *skater) {
				c.do(days(2), deeds.SetRules{SpareRules: inventory.SpareRules{HeightWithin: mm(0.1)}})
				c.do(days(2), deeds.MeasureSteel{Player: s.number, Heights: []inventory.Height{{Runner: s.spareRunners[1], Middle: mm(11.65)}}})
			}, sparepair.Fixable, sparepair.FixHeight, "low: right 11.66 mm, first pair 11.80 mm", func(c *club, s *skater) {
				c.do(days(1), deeds.SetRules{Player: s.number, SpareRules: inventory.SpareRules{HeightWithin: mm(0.2)}})
			},
		},
		{
			"tried too long ago for this club", func(c *club, s *skater) {
				five := 5
				c.do(days(2), deeds.SetRules{SpareRules: inventory.SpareRules{TriedDays: &five}})
			}, sparepair.Fixable, sparepair.FixTry, "tried 6 days ago", func(c *club, s *skater) { c.do(days(1), deeds.NoteTry{Pair: s.spare}) },
		},
		{
			"looked at too long ago for this club", func(c *club, s *skater) {
				four := 4
				c.do(days(2), deeds.SetRules{SpareRules: inventory.SpareRules{LookedDays: &four}})
			}, sparepair.Fixable, sparepair.FixLook, "bolts and rivets looked at 5 days ago, on the left",
			func(c *club, s *skater) { c.do(days(1), deeds.Inspect{Piece: s.spare, Sound: true}) },
		},
	}
}

// Each condition of a ready pair, broken alone and mended again.
func TestEveryConditionCounts(t *testing.T) {
	for _, one := range append(conditionsOfSteel(t), conditionsOfUse()...) {
		t.Run(one.name, func(t *testing.T) {
			c := openClub(t)
			s := c.add(17)
			c.is(s, sparepair.Ready, "", "")
			one.spoil(c, s)
			c.is(s, one.state, one.fix, one.what)
			one.mend(c, s)
			c.is(s, sparepair.Ready, "", "")
		})
	}
}
