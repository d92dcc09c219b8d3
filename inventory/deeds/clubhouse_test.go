package deeds

import (
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
	"steeltally/inventory/standing"
)

// clubhouse is a desk with what most days need: two players with a first pair each,
// holders on it, runners in stock and sets made of them. All of it is noted at one
// instant, "1 08:00", as somebody does who starts a book.
type clubhouse struct {
	*desk
	bo, kit           inventory.Number // players 17 and 31; kit is a goalkeeper
	pair, kitPair     inventory.Number
	left, right       inventory.Number   // holders on bo's pair
	spareLeft         inventory.Number   // a holder on no boot
	runners           []inventory.Number // of skaters: four lefts and four rights, each next to each
	setA, setB, setC  inventory.Number   // bo's
	kitRunners        []inventory.Number
	kitSet            inventory.Number
	kitLeft, kitRight inventory.Number
}

func newDesk(t *testing.T) *desk { return &desk{t: t, writer: inventorytest.FirstWriter} }

const opening = "1 08:00"

// openBook is a desk with nothing but the club.
func openBook(t *testing.T) *desk {
	d := newDesk(t)
	d.do(opening, FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1})
	return d
}

func openClubhouse(t *testing.T) *clubhouse {
	c := &clubhouse{desk: openBook(t)}
	c.declareModels()
	c.bo = c.give(AddPlayer{Name: "Bo Quillon", Position: "defence", Sweater: 17})
	c.kit = c.give(AddPlayer{Name: "Kit Marrable", Position: "goalkeeper", Sweater: 31})
	usual := 5
	half, _ := inventory.ParseCut("1/2in")
	c.do(opening, NoteSpecs{c.bo, inventory.Specs{Hollow: &half, Passes: &usual, ChangeHeight: mm(8.4)}})
	c.do(opening, NoteSpecs{c.kit, inventory.Specs{Passes: &usual}})
	c.pair, c.left, c.right = c.equip(c.bo, "first", "Model H")
	c.kitPair, c.kitLeft, c.kitRight = c.equip(c.kit, "first", "Model HG")
	c.spareLeft = c.stock(inventory.KindHolder, "Model H", inventory.Left, 1)[0]
	c.runners = c.stock(inventory.KindRunner, "Model R", "", 8)
	c.kitRunners = c.stock(inventory.KindRunner, "Model RG", "", 2)
	c.setA = c.match(c.bo, c.runners[0], c.runners[1])
	c.setB = c.match(c.bo, c.runners[2], c.runners[3])
	c.setC = c.match(c.bo, c.runners[4], c.runners[5])
	c.kitSet = c.match(c.kit, c.kitRunners[0], c.kitRunners[1])
	c.unflagged()
	return c
}

func (c *clubhouse) declareModels() {
	for _, model := range []DeclareModel{
		{Name: "Model R", Piece: "runner", Family: "H", Thickness: 2.9, Height: mm(11.9)},
		{Name: "Model H", Piece: "holder", Family: "H"},
		{Name: "Model RG", Piece: "runner", Family: "HG", Goalkeeper: true, Thickness: 3.9, Height: mm(13)},
		{Name: "Model HG", Piece: "holder", Family: "HG", Goalkeeper: true},
	} {
		c.do(opening, model)
	}
}

func (d *desk) give(deed Deed) inventory.Number {
	d.t.Helper()
	return given(d.t, d.do(opening, deed))
}

func (d *desk) stock(kind inventory.Kind, model string, side inventory.Side, count int) []inventory.Number {
	d.t.Helper()
	events := d.do(opening, StockIn{Piece: kind, Model: model, Size: 280, Side: side, Count: count})
	return events[0].Body.(*inventory.StockedIn).Pieces
}

func (d *desk) match(player, left, right inventory.Number) inventory.Number {
	d.t.Helper()
	return d.give(MakeSet{Player: player, Left: left, Right: right})
}

// equip gives a player a pair with holders of a model.
func (d *desk) equip(player inventory.Number, role inventory.Role, model string) (pair, left, right inventory.Number) {
	d.t.Helper()
	pair = d.give(AddPair{player, role})
	left = d.stock(inventory.KindHolder, model, inventory.Left, 1)[0]
	right = d.stock(inventory.KindHolder, model, inventory.Right, 1)[0]
	d.do(opening, RivetOn{Holder: left, Pair: pair})
	d.do(opening, RivetOn{Holder: right, Pair: pair})
	return pair, left, right
}

func (c *clubhouse) putIn(text string, set inventory.Number) []inventory.Event {
	c.t.Helper()
	return c.do(text, PutSetIn{Player: c.bo, Set: set})
}

func (c *clubhouse) grind(text string) *inventory.Ground {
	c.t.Helper()
	return c.do(text, Grind{Player: c.bo})[0].Body.(*inventory.Ground)
}

func (c *clubhouse) change(text string, set inventory.Number, reason inventory.Reason) []inventory.Event {
	c.t.Helper()
	return c.do(text, ChangeSteel{TakeOut{Player: c.bo, Reason: reason}, set})
}

// wearOf checks the grinds and the known passes of a runner, seen from now.
func (c *clubhouse) wearOf(n inventory.Number, grinds, passes int) {
	c.t.Helper()
	wear := c.runner(n).WearAt(theNow)
	if wear.Grinds != grinds || wear.Passes != passes {
		c.t.Errorf("%s: %d grinds and %d passes, want %d and %d", n.Short(), wear.Grinds, wear.Passes, grinds, passes)
	}
}

// on checks what is on bo's pair at a time, on both sides.
func (c *clubhouse) on(text string, left, right inventory.Number) {
	c.t.Helper()
	pair := c.pairOf(c.pair)
	for side, want := range map[inventory.Side]inventory.Number{inventory.Left: left, inventory.Right: right} {
		if got := pair.SeatAt(side, at(c.t, text)).Runner; got != want {
			c.t.Errorf("%s: on the %s boot is %s, want %s", text, side, got.Short(), want.Short())
		}
	}
}

// stateOf checks the state of a runner and of a set.
func (c *clubhouse) stateOf(text string, n inventory.Number, want inventory.State) {
	c.t.Helper()
	got := inventory.State("")
	switch state := c.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		got = state.StateAt(at(c.t, text))
	case *inventory.Set:
		got = standing.SetState(&c.Ledger, state, at(c.t, text))
	}
	if got != want {
		c.t.Errorf("%s at %s: %q, want %q", n.Short(), text, got, want)
	}
}
