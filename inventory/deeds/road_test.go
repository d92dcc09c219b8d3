package deeds

import (
	"slices"
	"strings"
	"testing"

	"steeltally/inventory"
)

// spareOf gives bo a spare pair with holders on it.
func (c *clubhouse) spareOf() (pair, left, right inventory.Number) {
	c.t.Helper()
	return c.equip(c.bo, inventory.RoleSpare, "Model H")
}

func (c *clubhouse) marks(n inventory.Number) *inventory.Marks {
	return inventory.MarksOf(&c.Ledger, n)
}

func TestTriesAndGamesOnTheSpare(t *testing.T) {
	c := openClubhouse(t)
	spare, left, _ := c.spareOf()
	c.do("3 10:00", NoteTry{Pair: spare, Declined: true, Note: "too stiff"})
	try, ok := c.pairOf(spare).TriedAt(at(t, "4 08:00"))
	if !ok || !try.Value.Declined || try.Value.Note != "too stiff" {
		t.Errorf("the try is %+v", try)
	}
	c.do("4 19:00", NoteSkated{Pair: spare, Game: true})
	if skated, ok := c.pairOf(spare).SkatedAt(at(t, "4 20:00")); !ok || skated.When.Start.Hour() != 19 {
		t.Errorf("skated %+v", skated)
	}
	c.refuses("4 19:00", NoteSkated{Pair: c.pair}, "is the first pair")
	c.do("5 08:00", ReportDamage{Piece: left, Mode: "crack"})
	c.refuses("5 09:00", NoteTry{Pair: spare}, left.Short()+" is unsafe")
	c.do("5 09:00", NoteSkated{Pair: spare})
	c.told("DO NOT SKATE")
	c.refuses("5 09:00", NoteTry{Pair: c.setA}, "is a set, not a pair")
	c.do("5 09:00", NotePitch{Pair: spare, Pitch: -1})
	if pitch, ok := c.pairOf(spare).PitchAt(theNow); !ok || pitch.Value != -1 {
		t.Errorf("the pitch is %+v", pitch)
	}
	c.refuses("5 09:00", NotePitch{Pair: spare, Pitch: 20}, "no holder's")
}

// A new holder that goes on in an emergency is one act: the old one is off and marked, the
// new one on with the steel that was in it; and it is taken back as one.
func TestANewHolderIsCarriedThrough(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	left, fresh := c.runners[0], c.spareLeft
	c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Left})
	c.refuses("4 19:10", EndEmergency{Player: c.bo, Did: inventory.RemedyHolder, With: []inventory.Number{c.right}}, "is a right holder")
	end := EndEmergency{Player: c.bo, Did: inventory.RemedyHolder, With: []inventory.Number{fresh}, Broke: BrokeHolder, Mode: "crack", Zone: "rear-tower"}
	events := c.do("4 19:10", end)
	c.told("look at " + left.Short() + ", too")
	now := at(t, "4 19:11")
	if damages := c.marks(c.left).OpenDamages(now); c.pairOf(c.pair).HolderAt(inventory.Left, now) != fresh || c.holder(c.left).BootAt(now).Pair != 0 || len(damages) != 1 || damages[0].Zone != "rear-tower" {
		t.Errorf("on the boot is %s; the old one is %+v", c.pairOf(c.pair).HolderAt(inventory.Left, now).Short(), damages)
	}
	c.on("4 19:11", left, c.runners[1])
	if c.holder(fresh).RunnerAt(now) != left || !c.marks(left).DoNotSkate(now) || c.set(c.setA).Order(now) != 1 {
		t.Error("the runner is not in the new holder, or it is not marked any more, or its set is another one")
	}
	c.unflagged()
	c.refuses("4 19:20", Inspect{Piece: left, Sound: true}, "named once more")
	c.refuses("4 19:20", Inspect{Piece: left, Sound: true, Sure: []inventory.Number{c.right}}, "DO NOT SKATE on "+left.Short())
	c.do("4 19:20", Inspect{Piece: left, Sound: true, Sure: []inventory.Number{left}})
	c.grind("4 19:30")
	c.do("4 20:01", undo(events))
	if c.pairOf(c.pair).HolderAt(inventory.Left, at(t, "4 20:02")) != c.left || c.marks(c.left).DamagedForGood(theNow) {
		t.Error("it was not taken back as one")
	}
	c.on("4 20:02", left, c.runners[1])
	c.unflagged()
}

// What does not go into the new holder, or is broken, stays out, and what helped instead
// goes on; sound steel is not done with.
func TestWhatGoesIntoANewHolder(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 18:00", ReportDamage{Piece: c.runners[0], Mode: "break"})
	c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Left, Broke: BrokeHolder, Mode: "crack"})
	events := c.do("4 19:10", EndEmergency{Player: c.bo, Did: inventory.RemedyHolder, With: []inventory.Number{c.spareLeft}})
	c.told("did not go into the new holder: it is damaged")
	c.on("4 19:11", 0, c.runners[1])
	c.do("4 19:20", undo(events))
	c.do("4 19:30", EndEmergency{Player: c.bo, Did: inventory.RemedyHolder, With: []inventory.Number{c.spareLeft, c.setB}})
	c.on("4 19:31", c.runners[2], c.runners[3])
	for i, want := range []inventory.State{inventory.Removed, inventory.InStock} {
		if got := c.runner(c.runners[i]).StateAt(at(t, "4 19:31")); (got == inventory.Removed) != (want == inventory.Removed) {
			t.Errorf("runner %d of the old set is %s", i, got)
		}
	}
	c.unflagged()
}

// Another set that helped goes on, for what is broken of the old one, and for nothing else.
func TestAnotherSetIsCarriedThrough(t *testing.T) {
	for _, broke := range []string{BrokeRunner, BrokeHolder} {
		c := openClubhouse(t)
		c.putIn("3 10:00", c.setA)
		c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Left, Broke: broke})
		end := EndEmergency{Player: c.bo, Did: inventory.RemedySteel, With: []inventory.Number{c.setB}, Broke: broke, Mode: "break"}
		c.do("4 19:10", end)
		state := c.runner(c.runners[0]).StateAt(at(t, "4 19:11"))
		if broke == BrokeRunner {
			c.on("4 19:11", c.runners[2], c.runners[3])
			if state != inventory.Removed {
				t.Errorf("the broken runner is %s", state)
			}
			continue
		}
		c.told("set B is not on the pair in this book yet: the left holder " + c.left.Short() + " is damaged")
		c.on("4 19:11", c.runners[0], c.runners[1])
	}
}

// What may be broken is not skated on, ground or put in, until somebody looked; a look
// finds it sound, a damage says what it was.
func TestSuspicions(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Right})
	right := c.runners[1]
	for _, n := range []inventory.Number{c.right, right} {
		open := c.marks(n).OpenDamages(at(t, "4 19:01"))
		if !c.marks(n).DoNotSkate(at(t, "4 19:01")) || c.marks(n).DamagedForGood(theNow) || len(open) != 1 || open[0].Mode != "suspect" || !open[0].Unsafe {
			t.Errorf("%s: %+v", n.Short(), open)
		}
	}
	if c.marks(c.left).DoNotSkate(theNow) || c.marks(right).DoNotSkate(at(t, "4 18:59")) {
		t.Error("what did not break, or not yet, is suspected")
	}
	c.refuses("4 20:00", Grind{Player: c.bo}, "do not grind or skate it")
	c.do("4 20:00", TakeOut{Player: c.bo, Reason: "rotate"})
	c.refuses("4 20:01", PutSetIn{Player: c.bo, Set: c.setA}, "is damaged")
	c.do("4 21:00", Inspect{Piece: right, Sound: true, Sure: []inventory.Number{right}})
	c.do("4 21:00", Inspect{Piece: c.right, Sound: false})
	if c.marks(right).DoNotSkate(theNow) || !c.marks(c.right).DoNotSkate(theNow) {
		t.Error("a look that found it sound counts, another one does not")
	}
	c.do("4 21:01", ReportDamage{Piece: c.right, Mode: "loose-rivet"})
	if open := c.marks(c.right).OpenDamages(theNow); len(open) != 1 || open[0].Mode != "loose-rivet" {
		t.Errorf("known is %+v", open)
	}
}

// A damage that is recorded of the side already says what broke.
func TestAnEmergencyOfWhatIsKnown(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("2 08:00", CallEmergency{Player: c.bo, Side: inventory.Left, Pair: c.kitPair}, "is not Bo Quillon's")
	c.putIn("3 10:00", c.setA)
	c.do("4 19:00", ReportDamage{Piece: c.left, Mode: "crack"})
	events := c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Left})
	if body := events[0].Body.(*inventory.Emergency); len(body.Suspects) != 0 || c.marks(c.runners[0]).DoNotSkate(theNow) {
		t.Errorf("suspected are %v", body.Suspects)
	}
	events = c.do("5 19:00", CallEmergency{Player: c.bo, Side: inventory.Right, Broke: BrokeRunner, Mode: "break", Zone: "toe"})
	if len(events) != 2 || !c.marks(c.runners[1]).DamagedForGood(theNow) || c.marks(c.right).DoNotSkate(theNow) {
		t.Errorf("recorded %d events", len(events))
	}
	c.refuses("6 08:00", CallEmergency{Player: c.bo}, "on which side")
	c.refuses("6 08:00", CallEmergency{Player: c.bo, Side: inventory.Left, Broke: "boot"}, `what broke "boot"`)
	c.refuses("6 08:00", CallEmergency{Player: c.bo, Side: inventory.Left, Mode: "crack"}, "what broke?")
	bare := c.give(AddPlayer{Name: "Odd Ferrin", Position: "forward"})
	pair := c.give(AddPair{bare, inventory.RoleFirst})
	c.refuses("6 08:00", CallEmergency{Player: bare, Pair: pair, Side: inventory.Left}, "nothing is recorded on the left boot")
}

func TestHowEmergenciesEnd(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("4 19:00", EndEmergency{Player: c.bo, Did: inventory.RemedySteel}, "no emergency of Bo Quillon waits")
	c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Right})
	c.refuses("4 19:05", EndEmergency{Player: c.bo, Did: "magic"}, `what was done "magic"`)
	c.refuses("4 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedySteel, Broke: BrokeHolder}, "go together")
	c.refuses("4 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedySteel, Broke: BrokeNothing, Mode: "crack"}, "go together")
	c.refuses("4 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedySpare}, "no spare pair")
	c.do("4 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedyMended})
	c.told("nobody has said what broke")
	if !c.marks(c.right).DoNotSkate(theNow) || len(c.player(c.bo).OpenCrises(theNow)) != 0 {
		t.Error("what nobody looked at stays suspected, although the emergency is over")
	}
	c.do("5 19:00", CallEmergency{Player: c.bo, Side: inventory.Left, Broke: BrokeHolder})
	c.refuses("5 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedyBorrowed, Broke: BrokeNothing}, "named once more")
	c.do("5 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedyBorrowed, Broke: BrokeNothing, Sure: []inventory.Number{c.left}})
	c.told("for the moment only")
	if c.marks(c.left).DoNotSkate(theNow) {
		t.Error("nothing was broken, and yet it is suspected")
	}
	if open := c.player(c.bo).OpenCrises(theNow); len(open) != 1 || open[0].Value.Done == nil {
		t.Errorf("open are %+v", open)
	}
	c.do("5 20:00", CloseEmergency{Player: c.bo, Note: "given back"})
	c.refuses("5 20:01", CloseEmergency{Player: c.bo}, "no emergency of Bo Quillon is open")
	c.do("6 19:00", CallEmergency{Player: c.bo, Side: inventory.Left})
	c.do("6 20:00", CloseEmergency{Player: c.bo})
	c.told("nobody said how the emergency")
}

// An emergency that was called by mistake is taken back, with what it suspected.
func TestAnEmergencyIsTakenBack(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	events := c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Left})
	c.do("4 19:01", Undo{Events: events, Words: "it was the lace"})
	if c.marks(c.left).DoNotSkate(theNow) || len(c.player(c.bo).Crises) != 0 {
		t.Error("it still counts")
	}
	c.unflagged()
}

// shelfHas checks the loose pieces of a kind.
func (c *clubhouse) shelfHas(kind inventory.Kind, want ...inventory.Number) {
	c.t.Helper()
	var loose []inventory.Number
	for _, lot := range inventory.ShelfOf(&c.Ledger, kind).Lots {
		loose = append(loose, lot.Loose...)
	}
	slices.Sort(loose)
	slices.Sort(want)
	if !slices.Equal(loose, want) {
		c.t.Errorf("on the shelf are %v, want %v", loose, want)
	}
}

// The shelf has holders that are on no boot and runners that were never matched.
func TestTheShelf(t *testing.T) {
	c := openClubhouse(t)
	c.shelfHas(inventory.KindHolder, c.spareLeft)
	c.shelfHas(inventory.KindRunner, c.runners[6], c.runners[7])
	c.do("2 08:00", RivetOff{Holder: c.left})
	c.shelfHas(inventory.KindHolder, c.spareLeft, c.left)
	on := c.do("2 09:00", RivetOn{Holder: c.spareLeft, Pair: c.pair})
	c.shelfHas(inventory.KindHolder, c.left)
	c.do("2 10:00", Undo{Events: on})
	c.shelfHas(inventory.KindHolder, c.spareLeft, c.left)
	c.do("3 08:00", ReportDamage{Piece: c.left, Mode: "loose-rivet"})
	c.shelfHas(inventory.KindHolder, c.spareLeft, c.left)
	c.do("3 09:00", ReportDamage{Piece: c.left, Mode: "crack"})
	c.shelfHas(inventory.KindHolder, c.spareLeft)
	c.do("3 10:00", Scrap{Pieces: []inventory.Number{c.runners[6], c.spareLeft}})
	c.shelfHas(inventory.KindHolder)
	c.shelfHas(inventory.KindRunner, c.runners[7])
}

// Pairs move up, all at once; one with something broken on it does not.
func TestPromotions(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("2 08:00", Promote{c.bo}, "has no spare pair")
	spare, left, _ := c.spareOf()
	third := c.give(AddPair{c.bo, inventory.RoleThird})
	c.do("3 08:00", Promote{c.bo})
	roles := func() string {
		var all []string
		for _, n := range []inventory.Number{c.pair, spare, third} {
			all = append(all, string(c.pairOf(n).Role(theNow)))
		}
		return strings.Join(all, " ")
	}
	if got := roles(); got != "spare kept first" {
		t.Errorf("the roles are %s", got)
	}
	c.do("4 08:00", Promote{c.bo})
	c.told("has no spare pair now")
	if got := roles(); got != "first kept kept" {
		t.Errorf("the roles are %s", got)
	}
	c.do("5 08:00", GiveRole{spare, inventory.RoleSpare})
	c.do("5 08:00", ReportDamage{Piece: left, Mode: "crack"})
	c.refuses("6 08:00", Promote{c.bo}, "is unsafe")
}

// A traded player takes his skates; the steel can stay, and so does what is ready.
func TestTrades(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("4 08:00", Trade{Player: c.bo}, "where he goes is empty")
	c.do("4 08:00", Trade{Player: c.bo, To: "Cold Sound", SteelOff: true})
	c.told("the club keeps his set A")
	for _, n := range []inventory.Number{c.pair, c.left, c.right} {
		if custody := c.marks(n).CustodyAt(theNow); custody.String() != "gone with the player (Cold Sound)" {
			t.Errorf("%s is %s", n.Short(), custody)
		}
	}
	for _, n := range c.runners[:2] {
		if !c.marks(n).CustodyAt(theNow).Ours() || c.runner(n).StateAt(theNow) != inventory.Ready {
			t.Errorf("%s is not here and ready", n.Short())
		}
	}
	c.refuses("5 08:00", Trade{Player: c.bo, To: "Cold Sound"}, "has left the club already")
	c.do("5 08:10", PutSetIn{Player: c.bo, Set: c.setB})
	c.do("5 08:20", Grind{Player: c.bo})
	c.told(c.pair.Short() + " is gone with the player (Cold Sound) by the record")
	c.do("5 08:30", TakeOut{Player: c.bo, Reason: "rotate"})
	c.do("5 09:00", MakeSet{Player: c.kit, Left: c.runners[0], Right: c.runners[1]}) // recovered
	c.unflagged()
}

// The pair that broke is no way back on the ice, and who is sent back to a first pair that
// is not whole hears of it.
func TestThePairThatBrokeHelpsNobody(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	spare := c.do("3 11:00", AddPair{Player: c.bo, Role: inventory.RoleSpare})[0].Body.(*inventory.PairNoted).Pair
	c.do("4 19:00", CallEmergency{Player: c.bo, Side: inventory.Left, Broke: BrokeRunner, Mode: "break"})
	c.do("4 19:05", EndEmergency{Player: c.bo, Did: inventory.RemedySpare})
	c.do("4 19:10", PutSetIn{Player: c.bo, Set: c.setB})
	c.do("4 19:20", CallEmergency{Player: c.bo, Side: inventory.Left, Broke: BrokeRunner, Mode: "break"})
	c.refuses("4 19:25", EndEmergency{Player: c.bo, Did: inventory.RemedySpare}, spare.Short()+" is the pair that broke")
	c.do("4 20:00", CloseEmergency{Player: c.bo})
	c.told("on his first pair: DO NOT SKATE")
}
