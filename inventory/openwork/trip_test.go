package openwork_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/roadtrip"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing/standingtest"
)

const trip = "Rime Point"

// onTheRoad is a club with a trip, some players and trunks.
func onTheRoad(t *testing.T, players, trunks int) (*club, []*skater, []inventory.Number) {
	c := openClub(t)
	var skaters []*skater
	for i := range players {
		skaters = append(skaters, c.add(2+i))
	}
	var numbers []inventory.Number
	for i := range trunks {
		events := c.do(days(100), deeds.NoteContainer{Container: inventory.KindTrunk, Name: fmt.Sprintf("trunk %d", i+1)})
		numbers = append(numbers, events[0].Body.(*inventory.ContainerNoted).Container)
	}
	day := inventory.Between(theNow.AddDate(0, 0, 7), theNow.AddDate(0, 0, 8))
	c.do(days(2), deeds.AddTrip{Name: trip, From: day, To: day})
	return c, skaters, numbers
}

func (c *club) trip() *inventory.Trip {
	c.t.Helper()
	found, err := inventory.FindTrip(&c.Ledger, trip)
	if err != nil {
		c.t.Fatal(err)
	}
	return found
}

// told checks that the last deed told a person something.
func (c *club) told(what string) {
	c.t.Helper()
	for _, notice := range c.notices {
		if strings.Contains(notice.Text, what) {
			return
		}
	}
	c.t.Errorf("nobody was told %q, but %+v", what, c.notices)
}

// Of 25 trunks that went out 24 are back: the 25th is named.
func TestTwentyFourOfTwentyFiveTrunks(t *testing.T) {
	c, _, trunks := onTheRoad(t, 1, 25)
	c.do(days(1), deeds.CountTrunks{Trip: trip, Trunks: trunks})
	back := slices.Delete(slices.Clone(trunks), 8, 9)
	c.do(days(0.5), deeds.CountTrunks{Trip: trip, Back: true, Trunks: back})
	if len(c.notices) != 1 {
		t.Errorf("told: %+v", c.notices)
	}
	c.told("trunk 9 is not here")
	missing := inventory.TrunksNotHere(c.trip(), true, nil, theNow)
	if !slices.Equal(missing, trunks[8:9]) {
		t.Errorf("missing are %v", missing)
	}
	c.do(days(0.1), deeds.CountTrunks{Trip: trip, Back: true, Trunks: trunks[8:9]})
	if len(c.notices) != 0 || len(inventory.TrunksNotHere(c.trip(), true, nil, theNow)) != 0 {
		t.Errorf("told: %+v", c.notices)
	}
}

// A trunk that was packed and does not stand at the bus is named on the way out.
func TestAPackedTrunkIsNotAtTheBus(t *testing.T) {
	c, skaters, trunks := onTheRoad(t, 2, 3)
	for i, s := range skaters {
		c.do(days(1), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[i], Pieces: []inventory.Number{s.spare}}}})
	}
	c.do(days(0.5), deeds.CountTrunks{Trip: trip, Trunks: trunks[:1]})
	c.told("trunk 2 is not here")
	if len(c.notices) != 1 {
		t.Errorf("told: %+v", c.notices)
	}
}

// What should be in and isn't: spare pairs of who comes along, sets, kits.
func TestShort(t *testing.T) {
	c, skaters, trunks := onTheRoad(t, 5, 2)
	in, out, stays, broken, none := skaters[0], skaters[1], skaters[2], skaters[3], skaters[4]
	c.do(days(1), deeds.ChangeRoster{Trip: trip, Players: []inventory.Number{stays.number}, Stay: true})
	c.do(days(1), deeds.GiveRole{Pair: none.spare, Role: inventory.RoleKept})
	c.do(days(1), deeds.ReportDamage{Piece: broken.holders["spare left"], Mode: "crack"})
	c.do(days(1), deeds.NoteKit{Kit: "rivets 5 mm", Least: 200})
	c.do(days(1), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{
		{Trunk: trunks[0], Pieces: []inventory.Number{in.spare, broken.spare, stays.spare}, Kits: []inventory.KitCount{{Kit: "Rivets 5 mm", Count: 120}}},
	}})
	c.told("DO NOT SKATE")
	c.told("who does not come along")
	said := map[int]string{}
	for _, s := range roadtrip.Short(&c.Ledger, c.trip(), sparepair.Squad(standingtest.Look(&c.Ledger, theNow)), theNow) {
		said[s.Sweater] = s.What + ": " + s.Why
	}
	want := map[int]string{
		out.sweater: "spare pair: not packed", broken.sweater: "spare pair: DO NOT SKATE: " + broken.holders["spare left"].Short() + ", crack",
		none.sweater: "spare pair: no spare pair", 0: "kit: 120 of at least 200",
	}
	if fmt.Sprint(said) != fmt.Sprint(want) {
		t.Errorf("short: %v\nwant  %v", said, want)
	}
	if place := inventory.MarksOf(&c.Ledger, in.spare).Place(theNow); place.Name != "trunk 1" {
		t.Errorf("what was packed lies at %q", place)
	}
	one := 1
	c.do(days(1), deeds.SetRules{Player: in.number, SpareRules: inventory.SpareRules{Sets: &one}})
	if short := roadtrip.Short(&c.Ledger, c.trip(), sparepair.Squad(standingtest.Look(&c.Ledger, theNow)), theNow); !slices.ContainsFunc(short, func(s roadtrip.Shortage) bool { return s.Sweater == in.sweater && s.What == "ready sets" }) {
		t.Errorf("no set is missing in %+v", short)
	}
	c.do(days(0.5), deeds.Grind{Set: in.sets[2]})
	c.do(days(0.5), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[1], Pieces: []inventory.Number{in.sets[2]}, Kits: []inventory.KitCount{{Kit: "rivets 5 mm", Count: 80}}}}})
	for _, s := range roadtrip.Short(&c.Ledger, c.trip(), sparepair.Squad(standingtest.Look(&c.Ledger, theNow)), theNow) {
		if s.Sweater == in.sweater || s.What == "kit" {
			t.Errorf("still short: %+v", s)
		}
	}
	set, _ := inventory.FindSet(&c.Ledger, in.sets[2])
	if place := inventory.MarksOf(&c.Ledger, set.Left).Place(theNow); place.Name != "trunk 2" {
		t.Errorf("the runners of a packed set lie at %q", place)
	}
}

// What is put elsewhere or given away after it was packed has left its trunk.
func TestWhatLeftItsTrunk(t *testing.T) {
	half, day := days(0.5), inventory.Between(theNow.Truncate(24*time.Hour).AddDate(0, 0, -1), theNow.Truncate(24*time.Hour))
	in := func(s *skater) []inventory.Number { return []inventory.Number{s.spare, s.sets[2]} }
	put := func(pieces []inventory.Number, place string) deeds.Deed {
		return deeds.PutAt{Pieces: pieces, Place: inventory.Place{Name: place, Slot: "7"}}
	}
	for name, tried := range map[string]struct {
		when inventory.When
		deed func(s *skater, set *inventory.Set) deeds.Deed
		want []string // what the trip is short of
		in   []int    // pieces in each trunk
	}{
		"nothing":          {in: []int{2, 1}},
		"elsewhere":        {inventory.At(half), func(s *skater, _ *inventory.Set) deeds.Deed { return put(in(s), "shelf 4") }, []string{"spare pair: packed, and since then put at shelf 4, slot 7", "ready sets: 0 of 1"}, []int{0, 1}},
		"in its own slot":  {inventory.At(half), func(s *skater, _ *inventory.Set) deeds.Deed { return put(in(s), "Trunk  1") }, nil, []int{2, 1}},
		"in another trunk": {inventory.At(half), func(s *skater, _ *inventory.Set) deeds.Deed { return put(in(s), "trunk 2") }, nil, []int{0, 3}},
		"a trunk at home":  {inventory.At(half), func(s *skater, _ *inventory.Set) deeds.Deed { return put(in(s)[:1], "trunk 3") }, []string{"spare pair: packed, and since then put at trunk 3, slot 7"}, []int{1, 1}},
		"some time then":   {day, func(s *skater, _ *inventory.Set) deeds.Deed { return put(in(s)[:1], "shelf 4") }, []string{"spare pair: packed, and since then put at shelf 4, slot 7"}, []int{1, 1}},
		"before it":        {inventory.At(days(0.95)), func(s *skater, _ *inventory.Set) deeds.Deed { return put(in(s), "shelf 4") }, nil, []int{2, 1}},
		"a runner of it":   {inventory.At(half), func(_ *skater, set *inventory.Set) deeds.Deed { return put([]inventory.Number{set.Left}, "bin 7") }, []string{"ready sets: 0 of 1"}, []int{1, 1}},
		"to the repairer": {inventory.At(half), func(s *skater, _ *inventory.Set) deeds.Deed {
			return deeds.HandOver{Pieces: in(s)[:1], Custody: "repairer"}
		}, []string{"spare pair: with the repairer"}, []int{1, 1}},
	} {
		t.Run(name, func(t *testing.T) {
			c, skaters, trunks := onTheRoad(t, 2, 3)
			s, other := skaters[0], skaters[1]
			one := 1
			c.do(days(1.2), deeds.SetRules{Player: s.number, SpareRules: inventory.SpareRules{Sets: &one}})
			c.do(days(1.2), deeds.Grind{Set: s.sets[2]})
			c.do(days(0.9), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[0], Pieces: in(s)}, {Trunk: trunks[1], Pieces: in(other)[:1]}}})
			if tried.deed != nil {
				set, err := inventory.FindSet(&c.Ledger, s.sets[2])
				if err != nil {
					t.Fatal(err)
				}
				if _, err := c.tryWhen(tried.when, tried.deed(s, set)); err != nil {
					t.Fatal(err)
				}
			}
			var said []string
			for _, short := range roadtrip.Short(&c.Ledger, c.trip(), sparepair.Squad(standingtest.Look(&c.Ledger, theNow)), theNow) {
				if short.Player == s.number {
					said = append(said, short.What+": "+short.Why)
				}
			}
			if !slices.Equal(said, tried.want) {
				t.Errorf("short: %q, want %q", said, tried.want)
			}
			manifest := roadtrip.Manifest(&c.Ledger, c.trip(), theNow)
			if got := []int{len(manifest[0].In), len(manifest[1].In)}; !slices.Equal(got, tried.in) {
				t.Errorf("in the trunks are %v pieces, want %v", got, tried.in)
			}
		})
	}
}

// What is put away once the trunks are back was along.
func TestWhatIsUnpackedWasAlong(t *testing.T) {
	c, skaters, trunks := onTheRoad(t, 1, 1)
	c.do(days(0.9), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[0], Pieces: []inventory.Number{skaters[0].spare}}}})
	c.do(days(0.5), deeds.CountTrunks{Trip: trip, Back: true, Trunks: trunks})
	c.do(days(0.4), deeds.PutAt{Pieces: []inventory.Number{skaters[0].spare}, Place: inventory.Place{Name: "shelf 4"}})
	if aboard := roadtrip.Aboard(&c.Ledger, c.trip(), theNow); len(aboard) != 1 {
		t.Errorf("aboard: %+v", aboard)
	}
}

// What is scanned into another trunk is only there, and what comes out is in none.
func TestManifest(t *testing.T) {
	c, skaters, trunks := onTheRoad(t, 2, 2)
	lot := func(trunk int, s *skater) deeds.Pack {
		return deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[trunk], Pieces: []inventory.Number{s.spare}}}}
	}
	c.do(days(1), lot(0, skaters[0]))
	c.do(days(1), lot(0, skaters[1]))
	c.do(days(0.9), lot(1, skaters[1]))
	c.told(skaters[1].spare.Short() + " was in " + trunks[0].Short())
	manifest := roadtrip.Manifest(&c.Ledger, c.trip(), theNow)
	if len(manifest) != 2 || len(manifest[0].In) != 1 || len(manifest[1].In) != 1 || manifest[0].In[0].What != "spare pair" || manifest[1].In[0].Owner != "3 Skater of 3" {
		t.Fatalf("the manifest is %+v", manifest)
	}
	out := lot(1, skaters[1])
	out.Out = true
	c.do(days(0.8), out)
	if manifest = roadtrip.Manifest(&c.Ledger, c.trip(), theNow); len(manifest) != 1 {
		t.Errorf("the manifest is %+v", manifest)
	}
}

// Who was called up stands first.
func TestTravellers(t *testing.T) {
	c, skaters, _ := onTheRoad(t, 3, 0)
	c.do(days(1), deeds.CallUp{Name: "Odd Ferrin", Sweater: 61})
	c.do(days(1), deeds.ChangeRoster{Trip: trip, Players: []inventory.Number{skaters[1].number}, Stay: true})
	var sweaters []int
	for _, p := range roadtrip.Travellers(sparepair.Squad(standingtest.Look(&c.Ledger, theNow)), c.trip()) {
		sweaters = append(sweaters, p.Sweater)
	}
	if !slices.Equal(sweaters, []int{61, 2, 4}) {
		t.Errorf("there come %v", sweaters)
	}
}
