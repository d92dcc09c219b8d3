package travel

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
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
	for _, s := range Short(&c.Ledger, c.trip(), theNow) {
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
	if short := Short(&c.Ledger, c.trip(), theNow); !slices.ContainsFunc(short, func(s Shortage) bool { return s.Sweater == in.sweater && s.What == "ready sets" }) {
		t.Errorf("no set is missing in %+v", short)
	}
	c.do(days(0.5), deeds.Grind{Set: in.sets[2]})
	c.do(days(0.5), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[1], Pieces: []inventory.Number{in.sets[2]}, Kits: []inventory.KitCount{{Kit: "rivets 5 mm", Count: 80}}}}})
	for _, s := range Short(&c.Ledger, c.trip(), theNow) {
		if s.Sweater == in.sweater || s.What == "kit" {
			t.Errorf("still short: %+v", s)
		}
	}
	set, _ := inventory.FindSet(&c.Ledger, in.sets[2])
	if place := inventory.MarksOf(&c.Ledger, set.Left).Place(theNow); place.Name != "trunk 2" {
		t.Errorf("the runners of a packed set lie at %q", place)
	}
}

// What is put elsewhere after it was packed has left its trunk, until it is put back.
func TestWhatIsPutElsewhereHasLeftItsTrunk(t *testing.T) {
	c, skaters, trunks := onTheRoad(t, 1, 1)
	s := skaters[0]
	one := 1
	c.do(days(1), deeds.SetRules{Player: s.number, SpareRules: inventory.SpareRules{Sets: &one}})
	c.do(days(1), deeds.Grind{Set: s.sets[2]})
	c.do(days(0.9), deeds.Pack{Trip: trip, Lots: []deeds.PackLot{{Trunk: trunks[0], Pieces: []inventory.Number{s.spare, s.sets[2]}}}})
	short := func() (said []string) {
		for _, one := range Short(&c.Ledger, c.trip(), theNow) {
			said = append(said, one.What+": "+one.Why)
		}
		return said
	}
	packed := func() int { return len(Manifest(&c.Ledger, c.trip(), theNow)[0].In) }
	if said := short(); len(said) != 0 || packed() != 2 {
		t.Fatalf("short of what was packed: %q, %d in", said, packed())
	}
	c.do(days(0.5), deeds.PutAt{Pieces: []inventory.Number{s.spare, s.sets[2]}, Place: inventory.Place{Name: "shelf 4", Slot: "2"}})
	if said := short(); fmt.Sprint(said) != "[spare pair: packed, and put at shelf 4, slot 2 since ready sets: 0 of 1]" || packed() != 0 {
		t.Errorf("short: %q, %d in", said, packed())
	}
	c.do(days(0.4), deeds.PutAt{Pieces: []inventory.Number{s.spare, s.sets[2]}, Place: inventory.Place{Name: "trunk 1", Slot: "7"}})
	if said := short(); len(said) != 0 || packed() != 2 {
		t.Errorf("short of what was put back: %q, %d in", said, packed())
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
	manifest := Manifest(&c.Ledger, c.trip(), theNow)
	if len(manifest) != 2 || len(manifest[0].In) != 1 || len(manifest[1].In) != 1 || manifest[0].In[0].What != "spare pair" || manifest[1].In[0].Owner != "3 Skater of 3" {
		t.Fatalf("the manifest is %+v", manifest)
	}
	out := lot(1, skaters[1])
	out.Out = true
	c.do(days(0.8), out)
	if manifest = Manifest(&c.Ledger, c.trip(), theNow); len(manifest) != 1 {
		t.Errorf("the manifest is %+v", manifest)
	}
}

// Who was called up stands first.
func TestTravellers(t *testing.T) {
	c, skaters, _ := onTheRoad(t, 3, 0)
	c.do(days(1), deeds.CallUp{Name: "Odd Ferrin", Sweater: 61})
	c.do(days(1), deeds.ChangeRoster{Trip: trip, Players: []inventory.Number{skaters[1].number}, Stay: true})
	var sweaters []int
	for _, p := range Travellers(&c.Ledger, c.trip(), theNow) {
		sweaters = append(sweaters, p.Sweater)
	}
	if !slices.Equal(sweaters, []int{61, 2, 4}) {
		t.Errorf("there come %v", sweaters)
	}
}
