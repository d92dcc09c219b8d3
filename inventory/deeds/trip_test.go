package deeds

import (
	"slices"
	"testing"

	"steeltally/inventory"
)

func TestCustody(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("4 08:00", HandOver{Pieces: []inventory.Number{c.pair}, Custody: "club"}, "the club has its pieces anyway")
	c.refuses("4 08:00", HandOver{Pieces: []inventory.Number{c.pair}, Custody: "attic"}, `custody "attic"`)
	c.refuses("4 08:00", HandOver{Custody: "maker"}, "no piece was named")
	c.refuses("4 08:00", HandOver{Pieces: []inventory.Number{c.bo}, Custody: "maker"}, "is not a piece in this book")
	c.refuses("4 08:00", HandOver{Pieces: []inventory.Number{c.pair}, Custody: "loan", Due: when(t, "3 08:00")}, "still to come")
	c.do("4 08:00", HandOver{Pieces: []inventory.Number{c.pair}, Custody: "farm", With: "Little Terns"})
	all := []inventory.Number{c.pair, c.left, c.right, c.runners[0], c.runners[1]}
	for _, n := range all {
		if custody := c.marks(n).CustodyAt(theNow); custody.String() != "with the farm club (Little Terns)" || !c.marks(n).CustodyAt(at(t, "3 08:00")).Ours() {
			t.Errorf("%s is %s", n.Short(), custody)
		}
	}
	if _, _, back := c.marks(c.pair).CameBack(theNow); back {
		t.Error("it is said to be back")
	}
	c.refuses("5 08:00", TakeBack{Pieces: []inventory.Number{c.spareLeft}}, "is with the club already")
	events := c.do("6 08:00", TakeBack{Pieces: []inventory.Number{c.pair}})
	c.told("ground elsewhere, passes unknown")
	if _, isGrind := events[1].Body.(*inventory.Ground); len(events) != 2 || !isGrind {
		t.Errorf("recorded %d events", len(events))
	}
	when, from, back := c.marks(c.left).CameBack(theNow)
	if !back || from.Custody != "farm" || when.Start.Day() != 6 {
		t.Errorf("back %v, %s, %s", back, from, when.Start)
	}
	if once := inventory.OnceAway(&c.Ledger); len(once) != len(all) {
		t.Errorf("once away were %v", once)
	}
}

// What a repairer has is not ground there, and a set in the hand is one piece to people.
func TestRepairsAreNoGrinds(t *testing.T) {
	c := openClubhouse(t)
	c.do("4 08:00", HandOver{Pieces: []inventory.Number{c.setB}, Custody: "repairer"})
	c.refuses("4 09:00", NoteAnswer{Pieces: []inventory.Number{c.setA}, Decision: "repair"}, "is with the club")
	c.refuses("4 09:00", NoteAnswer{Reference: "7", Decision: "repair"}, "nothing is away under reference 7")
	c.refuses("4 09:00", NoteAnswer{Pieces: []inventory.Number{c.setB}, Decision: "maybe"}, `decision "maybe"`)
	c.do("4 09:00", NoteAnswer{Pieces: []inventory.Number{c.setB}, Decision: "repair", Due: when(t, "9 08:00")})
	if custody := c.marks(c.setB).CustodyAt(theNow); custody.Decision != "repair" || custody.Due.Start.Day() != 9 || custody.Custody != "repairer" {
		t.Errorf("the set is %+v", custody)
	}
	if events := c.do("5 08:00", TakeBack{Pieces: []inventory.Number{c.setB}}); len(events) != 1 {
		t.Errorf("%d events, want the return alone", len(events))
	}
	c.wearOf(c.runners[2], 0, 0)
}

func TestScrap(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	for n, reason := range map[inventory.Number]string{
		c.runners[0]: "is in a holder", c.left: "is on pair", c.pair: "is still on pair", c.setA: "set A is on", c.bo: "not scrapped, a piece is",
	} {
		c.refuses("4 08:00", Scrap{Pieces: []inventory.Number{n}}, reason)
	}
	c.refuses("4 08:00", Scrap{}, "no piece was named")
	c.do("4 08:00", Scrap{Pieces: []inventory.Number{c.setB}, Reason: "bent in the trunk"})
	c.stateOf("5 08:00", c.runners[2], inventory.Removed)
	c.stateOf("3 08:00", c.runners[2], inventory.Ready)
	c.refuses("5 08:00", PutSetIn{Player: c.bo, Set: c.setB}, "is damaged")
	c.refuses("5 08:00", Scrap{Pieces: []inventory.Number{c.runners[2]}}, "was scrapped already")
	c.refuses("5 08:00", MakeSet{Player: c.bo, Left: c.runners[2], Right: c.runners[3]}, "is damaged")
}

// container enters a trunk.
func (c *clubhouse) container(name string) inventory.Number {
	c.t.Helper()
	return c.do(opening, NoteContainer{inventory.KindTrunk, name})[0].Body.(*inventory.ContainerNoted).Container
}

func TestPacking(t *testing.T) {
	c := openClubhouse(t)
	one, two := c.container("trunk 1"), c.container("trunk 2")
	c.refuses("2 08:00", AddTrip{Name: "Rime Point", From: when(t, "2025-12-03")}, "a day of leaving and a day of coming back")
	c.refuses("2 08:00", AddTrip{Name: "", From: when(t, "2025-12-03"), To: when(t, "2025-12-04")}, "the trip's name is empty")
	c.refuses("2 08:00", AddTrip{Name: "x", From: when(t, "2025-12-05"), To: when(t, "2025-12-04")}, "ends before it begins")
	c.do("2 08:00", AddTrip{Name: "Rime Point", From: when(t, "2025-12-03"), To: when(t, "2025-12-07")})
	c.do("2 08:00", AddTrip{Name: "Cold Sound", From: when(t, "2025-11-20"), To: when(t, "2025-11-21")})
	if trips := inventory.TripList(&c.Ledger); len(trips) != 2 || trips[0].Name != "Cold Sound" {
		t.Errorf("the trips are %v", trips)
	}
	c.refuses("2 09:00", ChangeRoster{Trip: "Rime Point"}, "no player was named")
	c.refuses("2 09:00", ChangeRoster{Trip: "Far Reach", Players: []inventory.Number{c.bo}}, "there is no trip Far Reach")
	c.do("2 09:00", ChangeRoster{Trip: "rime point", Players: []inventory.Number{c.bo}, Stay: true})
	lot := func(trunk inventory.Number, pieces ...inventory.Number) Pack {
		return Pack{Trip: "rime  point", Lots: []PackLot{{Trunk: trunk, Pieces: pieces}}}
	}
	c.refuses("2 09:00", Pack{Trip: "Rime Point"}, "nothing was scanned")
	c.refuses("2 09:00", lot(one, one), "is not a piece in this book")
	c.refuses("2 09:00", lot(c.pair, c.pair), "is not in this book")
	c.do("2 09:00", lot(one, c.pair, c.setA))
	c.told("who does not come along")
	if place := c.marks(c.runners[0]).Place(theNow); place.Name != "trunk 1" {
		t.Errorf("the set's runner lies at %q", place)
	}
	c.do("2 10:00", lot(two, c.setA))
	c.told("was in T1-1-38")
	trip, err := inventory.FindTrip(&c.Ledger, "RIME POINT")
	if err != nil || !slices.Equal(trip.Trunks(), []inventory.Number{one, two}) || len(trip.Pieces) != 2 {
		t.Fatalf("the trip is %+v, %v", trip, err)
	}
	out := lot(0, c.setA)
	out.Out = true
	c.do("2 11:00", out)
	if _, packed := c.trip("Rime Point").In(c.setA); packed {
		t.Error("it is still packed")
	}
	c.do("2 12:00", ReportDamage{Piece: c.left, Mode: "crack"})
	c.do("2 12:00", lot(two, c.pair))
	c.told(c.left.Short() + " is unsafe")
}

func (c *clubhouse) trip(name string) *inventory.Trip {
	c.t.Helper()
	trip, err := inventory.FindTrip(&c.Ledger, name)
	if err != nil {
		c.t.Fatal(err)
	}
	return trip
}

func TestKitsAreCounted(t *testing.T) {
	c := openClubhouse(t)
	trunk := c.container("trunk 1")
	c.do("2 08:00", AddTrip{Name: "Rime Point", From: when(t, "2025-12-03"), To: when(t, "2025-12-07")})
	c.refuses("2 08:00", NoteKit{Kit: "guards", Least: -1}, "at least -1")
	c.refuses("2 08:00", NoteKit{Kit: "guards", Least: 0}, "no kit is called guards")
	c.do("2 08:00", NoteKit{Kit: "guards", Least: 20})
	c.do("2 08:00", NoteKit{Kit: "Guards ", Least: 24})
	if kits := inventory.KitList(&c.Ledger); len(kits) != 1 || kits[0].Least != 24 {
		t.Errorf("the kits are %v", kits)
	}
	pack := func(trunk inventory.Number, count int) Pack {
		return Pack{Trip: "Rime Point", Lots: []PackLot{{Trunk: trunk, Kits: []inventory.KitCount{{Kit: "guards", Count: count}}}}}
	}
	c.do("2 09:00", pack(trunk, 12))
	c.do("2 09:00", pack(0, 6))
	c.do("2 10:00", pack(trunk, 14)) // counted again
	if count := c.trip("Rime Point").KitCount("GUARDS"); count != 20 {
		t.Errorf("%d guards are packed, want 14 and 6", count)
	}
	c.do("2 11:00", NoteKit{Kit: "guards", Least: 0})
	if kits := inventory.KitList(&c.Ledger); len(kits) != 0 {
		t.Errorf("the kits are %v", kits)
	}
}

func TestTrunksAreCounted(t *testing.T) {
	c := openClubhouse(t)
	one, two, three := c.container("trunk 1"), c.container("trunk 2"), c.container("trunk 3")
	c.do("2 08:00", AddTrip{Name: "Rime Point", From: when(t, "2025-12-03"), To: when(t, "2025-12-07")})
	c.refuses("3 08:00", CountTrunks{Trip: "Rime Point"}, "no trunk was scanned")
	c.refuses("3 08:00", CountTrunks{Trip: "Rime Point", Trunks: []inventory.Number{c.pair}}, "is not in this book")
	c.do("3 08:00", CountTrunks{Trip: "Rime Point", Trunks: []inventory.Number{one, two, two}})
	c.quiet()
	c.do("3 09:00", CountTrunks{Trip: "Rime Point", Trunks: []inventory.Number{three}})
	c.do("9 08:00", CountTrunks{Trip: "Rime Point", Back: true, Trunks: []inventory.Number{one}})
	c.told("trunk 2 is not here")
	c.told("trunk 3 is not here")
	c.do("9 09:00", CountTrunks{Trip: "Rime Point", Back: true, Trunks: []inventory.Number{three}})
	if missing := inventory.TrunksNotHere(c.trip("Rime Point"), true, nil, theNow); !slices.Equal(missing, []inventory.Number{two}) {
		t.Errorf("missing are %v", missing)
	}
	c.do("9 10:00", CountTrunks{Trip: "Rime Point", Back: true, Trunks: []inventory.Number{two}})
	c.quiet()
	c.do("9 11:00", CountTrunks{Trip: "Rime Point", Back: true, Trunks: []inventory.Number{two, c.container("trunk 9")}})
	c.told("trunk 9 never was on this trip")
}

func TestRules(t *testing.T) {
	c := openClubhouse(t)
	ten, five := 10, 5
	c.refuses("2 08:00", SetRules{}, "no rule was given")
	c.refuses("2 08:00", SetRules{SpareRules: inventory.SpareRules{HeightWithin: mm(9)}}, "a height difference of")
	c.refuses("2 08:00", SetRules{SpareRules: inventory.SpareRules{Minutes: []inventory.FixTime{{Fix: "grind", Minutes: -1}}}}, "-1 minutes for grind")
	c.do("2 08:00", SetRules{SpareRules: inventory.SpareRules{TriedDays: &ten, Minutes: []inventory.FixTime{{Fix: "grind", Minutes: 3}}}})
	c.do("3 08:00", SetRules{Player: c.bo, SpareRules: inventory.SpareRules{TriedDays: &five}})
	c.do("4 08:00", SetRules{SpareRules: inventory.SpareRules{Minutes: []inventory.FixTime{{Fix: "grind", Minutes: 6}}}})
	for _, one := range []struct {
		player  inventory.Number
		at      string
		days    int
		minutes int
	}{{c.bo, "5 08:00", 5, 6}, {c.kit, "5 08:00", 10, 6}, {c.bo, "2 09:00", 10, 3}} {
		rules := inventory.SpareRulesAt(&c.Ledger, one.player, at(t, one.at))
		if minutes, ok := rules.Takes("grind"); *rules.TriedDays != one.days || !ok || minutes != one.minutes {
			t.Errorf("on %s: %d days, %d minutes, want %+v", one.at, *rules.TriedDays, minutes, one)
		}
	}
	if rules := inventory.SpareRulesAt(&c.Ledger, c.bo, at(t, "1 07:00")); rules.TriedDays != nil {
		t.Errorf("before anything was set: %v", rules)
	}
}

func TestCallUps(t *testing.T) {
	c := openClubhouse(t)
	size := 272
	c.refuses("2 08:00", CallUp{Name: ""}, "player's name is empty")
	c.refuses("2 08:00", CallUp{Name: "Odd Ferrin", Unknown: []string{"weight"}}, `unknown "weight"`)
	c.refuses("2 08:00", CallUp{Name: "Odd Ferrin", Pitch: mm(30)}, "no holder's")
	events := c.do("2 08:00", CallUp{Name: "Odd Ferrin", Sweater: 17, Family: "H", Sizes: inventory.Both[int]{Left: &size}, Pitch: mm(0)})
	c.told("also worn by Bo Quillon")
	c.told("not known yet: size, hollow, profile")
	n := events[0].Body.(*inventory.PlayerNoted).Player
	if specs := c.player(n).SpecsAt(theNow); specs.Pitch == nil || specs.Hollow != nil {
		t.Errorf("the specs are %s", specs.String())
	}
	gone := true
	c.do("3 08:00", ChangePlayer{Player: n, Gone: &gone})
	again := c.do("4 08:00", CallUp{Name: "odd  ferrin", Sweater: 61})
	if back := again[0].Body.(*inventory.PlayerNoted); back.Player != n || back.Gone || back.Sweater != 61 {
		t.Errorf("he came back as %+v", back)
	}
	if call, ok := c.player(n).CalledUpAt(theNow); !ok || call.Value.Family != "" {
		t.Errorf("the last call-up is %+v", call)
	}
}
