package openwork_test

import (
	"fmt"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing/standingtest"
)

// theNow is when the questions are asked: a Wednesday in the invented club's season.
var theNow = time.Date(2025, 11, 26, 9, 0, 0, 0, time.UTC)

// club is a record in memory that deeds are done to.
type club struct {
	t *testing.T
	inventory.Ledger
	logical uint64
	notices []inventory.Notice
}

// skater is a player with what he has.
type skater struct {
	number        inventory.Number
	first, spare  inventory.Number // pairs
	holders       map[string]inventory.Number
	sets          []inventory.Number // on the first pair, on the spare, ready
	spareRunners  [2]inventory.Number
	sweater, size int
}

func openClub(t *testing.T) *club {
	c := &club{t: t}
	c.do(days(200), deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1})
	for _, model := range []deeds.DeclareModel{
		{Name: "Skua H", Piece: "holder", Family: "Skua"},
		{Name: "Skua R", Piece: "runner", Family: "Skua", Thickness: 2.9, Height: mm(11.9)},
		{Name: "Petrel H", Piece: "holder", Family: "Petrel"},
		{Name: "Petrel R", Piece: "runner", Family: "Petrel", Thickness: 2.9, Height: mm(11.9)},
	} {
		c.do(days(200), model)
	}
	return c
}

// days is an instant so many days before now.
func days(ago float64) time.Time {
	return theNow.Add(-time.Duration(ago * float64(24*time.Hour)))
}

func mm(value float64) *geometry.Millimetre {
	l := geometry.Millimetre(value)
	return &l
}

func cut(t *testing.T, text string) *inventory.Cut {
	t.Helper()
	c, err := inventory.ParseCut(text)
	if err != nil {
		t.Fatal(err)
	}
	return &c
}

// try does a deed at a time, and gives what it recorded or why it was refused.
func (c *club) try(at time.Time, deed deeds.Deed) ([]inventory.Event, error) {
	c.t.Helper()
	return c.tryWhen(inventory.At(at), deed)
}

// tryWhen is try with a time that may be vague.
func (c *club) tryWhen(when inventory.When, deed deeds.Deed) ([]inventory.Event, error) {
	outcome, err := deed.Decide(&c.Ledger, deeds.Moment{Happened: when, Now: theNow})
	if err != nil {
		return nil, err
	}
	c.notices = outcome.Notices
	var events []inventory.Event
	for _, draft := range outcome.Drafts {
		c.logical++
		events = append(events, inventory.Event{
			Key: inventory.Key{Writer: "00000000000000a1", Sequence: c.logical}, Logical: c.logical,
			Happened: draft.Happened, Noted: theNow, Body: draft.Body,
		})
	}
	c.Add(events...)
	return events, nil
}

// do does a deed that must not be refused.
func (c *club) do(at time.Time, deed deeds.Deed) []inventory.Event {
	c.t.Helper()
	events, err := c.try(at, deed)
	if err != nil {
		c.t.Fatalf("%T: %v", deed, err)
	}
	return events
}

func (c *club) stock(kind inventory.Kind, model string, size int, side inventory.Side, count int) []inventory.Number {
	c.t.Helper()
	deed := deeds.StockIn{Piece: kind, Model: model, Size: size, Side: side, Count: count}
	if kind == inventory.KindRunner {
		deed.Height = mm(11.9)
	}
	return c.do(days(100), deed)[0].Body.(*inventory.StockedIn).Pieces
}

// equip gives a skater a pair in a role with holders of a family and a set in them,
// ground once.
func (c *club) equip(s *skater, role inventory.Role, family string) (pair, set inventory.Number, runners [2]inventory.Number) {
	c.t.Helper()
	pair = c.do(days(100), deeds.AddPair{Player: s.number, Role: role})[0].Body.(*inventory.PairNoted).Pair
	for _, side := range inventory.Sides() {
		holder := c.stock(inventory.KindHolder, family+" H", s.size, side, 1)[0]
		s.holders[string(role)+" "+string(side)] = holder
		c.do(days(100), deeds.RivetOn{Holder: holder, Pair: pair})
	}
	set, runners = c.match(s, family)
	c.do(days(60), deeds.PutSetIn{Player: s.number, Set: set, Pair: pair})
	return pair, set, runners
}

// match makes a set of new runners.
func (c *club) match(s *skater, family string) (set inventory.Number, runners [2]inventory.Number) {
	c.t.Helper()
	pieces := c.stock(inventory.KindRunner, family+" R", s.size, "", 2)
	made := c.do(days(70), deeds.MakeSet{Player: s.number, Left: pieces[0], Right: pieces[1]})
	return made[0].Body.(*inventory.SetMade).Set, [2]inventory.Number{pieces[0], pieces[1]}
}

// add adds a skater with a first pair and a spare pair that is ready in all respects.
func (c *club) add(sweater int) *skater {
	c.t.Helper()
	s := &skater{sweater: sweater, size: 280, holders: map[string]inventory.Number{}}
	deed := deeds.AddPlayer{Name: fmt.Sprintf("Skater of %d", sweater), Position: "forward", Sweater: sweater}
	s.number = c.do(days(200), deed)[0].Body.(*inventory.PlayerNoted).Player
	passes := 5
	specs := inventory.Specs{Hollow: cut(c.t, "1/2in"), Profile: inventory.Profile{3352.8}, Passes: &passes, ChangeHeight: mm(8.4)}
	c.do(days(199), deeds.NoteSpecs{Player: s.number, Specs: specs})
	var firstSet, spareSet inventory.Number
	s.first, firstSet, _ = c.equip(s, inventory.RoleFirst, "Skua")
	s.spare, spareSet, s.spareRunners = c.equip(s, inventory.RoleSpare, "Skua")
	ready, _ := c.match(s, "Skua")
	s.sets = []inventory.Number{firstSet, spareSet, ready}
	c.do(days(3), deeds.Grind{Player: s.number})
	c.makeReady(s)
	return s
}

// makeReady does to a skater's spare pair what makes it ready.
func (c *club) makeReady(s *skater) {
	c.t.Helper()
	c.do(days(5), deeds.Grind{Player: s.number, Pair: s.spare})
	c.do(days(5), deeds.Inspect{Piece: s.spare, Sound: true})
	c.do(days(6), deeds.NoteTry{Pair: s.spare})
	c.do(days(4), deeds.PutAt{Pieces: []inventory.Number{s.spare}, Place: inventory.Place{Name: "boot rack", Slot: fmt.Sprint(s.sweater)}})
}

// spareOf is what is told of a skater's spare pair now.
func (c *club) spareOf(s *skater) sparepair.Pair {
	c.t.Helper()
	return sparepair.SparePair(standingtest.Look(&c.Ledger, theNow), c.player(s))
}

func (c *club) player(s *skater) *inventory.Player {
	c.t.Helper()
	player, err := inventory.PlayerOf(&c.Ledger, s.number)
	if err != nil {
		c.t.Fatal(err)
	}
	return player
}

// is checks the state of a skater's spare pair and what its first cause says.
func (c *club) is(s *skater, state sparepair.State, fix sparepair.Fix, what string) {
	c.t.Helper()
	pair := c.spareOf(s)
	cause := pair.Cause()
	if pair.State != state || cause.Fix != fix || cause.What != what {
		c.t.Errorf("the spare pair of %d is %s, %s %q; want %s, %s %q (all: %+v)", s.sweater, pair.State, cause.Fix, cause.What, state, fix, what, pair.Causes)
	}
}
