package deeds

import (
	"slices"
	"testing"

	"steeltally/inventory"
)

// An old piece with marker strokes only is counted, removed, and tells nothing of wear.
func TestFoundPieces(t *testing.T) {
	c := openClubhouse(t)
	events := c.do("15 12:00", FindOld{Player: c.bo, Sweater: 17, Side: inventory.Left, Inscription: "17 L 11/24", CameOff: when(t, "2024-11")})
	n := events[0].Body.(*inventory.FoundOld).Piece
	r, err := inventory.FindRunner(&c.Ledger, n)
	if err != nil {
		t.Fatal(err)
	}
	wear := r.WearAt(theNow)
	if r.StateAt(theNow) != inventory.Removed || r.SideAt(theNow) != inventory.Left || r.Recorded() || r.Found.Text != "17 L 11/24" {
		t.Errorf("%+v", r)
	}
	if wear.Grinds != 0 || wear.Passes != 0 || wear.UnknownWorks != 1 || wear.HeightNew != nil {
		t.Errorf("wear %+v: nobody counted", wear)
	}
	if stints := r.Stints(theNow); len(stints) != 1 || stints[0].Player != c.bo || stints[0].Out.Say(theNow.Location()) != "Nov 2024" {
		t.Errorf("stints %+v", stints)
	}
	if got := c.stock(inventory.KindRunner, "Model R", "", 1)[0]; got.Running() != n.Running()+1 {
		t.Errorf("the next number is %s after %s", got.Short(), n.Short())
	}
	c.do("15 12:00", MeasureSteel{Reference: inventory.Loose, Heights: []inventory.Height{{Runner: n, Side: inventory.Left, Middle: mm(9.3)}}})
	if final := c.runner(n).WearAt(theNow).HeightFinal; final == nil || *final != 9.3 {
		t.Errorf("final height %v", final)
	}
	c.unflagged()
	c.refuses("15 12:00", FindOld{Inscription: " "}, "what is written on it is empty")
	c.refuses("15 12:00", FindOld{Inscription: "117 L", Sweater: 117}, "sweater 117")
	c.refuses("15 12:00", FindOld{Inscription: "17 L", CameOff: when(t, "2031")}, "still to come")
	nobody, _ := inventory.NewNumber(inventory.KindPlayer, 1, 99)
	c.refuses("15 12:00", FindOld{Inscription: "17 L", Player: nobody}, "not in this book")
}

// Numbers for blank tags are never given twice; a piece gets one when it is entered.
func TestBlankTags(t *testing.T) {
	c := openClubhouse(t)
	blank := c.do(opening, ReserveBlank{inventory.KindRunner, 3})[0].Body.(*inventory.Reserved).Numbers()
	after := c.stock(inventory.KindRunner, "Model R", "", 1)[0]
	if len(blank) != 3 || blank[0].Running() != c.kitRunners[1].Running()+1 || after.Running() != blank[2].Running()+1 {
		t.Fatalf("blank %v, then %s", blank, after.Short())
	}
	for _, n := range blank {
		if !inventory.IsBlank(&c.Ledger, n) || c.Entity(inventory.RefOf(n)) != nil {
			t.Errorf("%s is not blank", n.Short())
		}
	}
	if inventory.IsBlank(&c.Ledger, after) || inventory.IsBlank(&c.Ledger, 0) {
		t.Error("a piece in stock counts as blank")
	}
	events := c.do(opening, StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Numbers: []inventory.Number{blank[1]}})
	if pieces := events[0].Body.(*inventory.StockedIn).Pieces; !slices.Equal(pieces, blank[1:2]) || inventory.IsBlank(&c.Ledger, blank[1]) {
		t.Errorf("entered %v", pieces)
	}
	for _, refused := range []struct {
		numbers []inventory.Number
		reason  string
	}{
		{[]inventory.Number{blank[1]}, "in this book already"},
		{[]inventory.Number{c.left}, "is a holder's number"},
		{[]inventory.Number{blank[0], blank[0]}, "given twice"},
		{[]inventory.Number{after + 0}, "in this book already"},
	} {
		c.refuses(opening, StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Numbers: refused.numbers}, refused.reason)
	}
	stranger, _ := inventory.NewNumber(inventory.KindRunner, 7, 1)
	c.refuses(opening, StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Numbers: []inventory.Number{stranger}}, "is on no blank tag")
	c.refuses(opening, ReserveBlank{inventory.KindPair, 3}, "blank tags are for runners and holders")
	c.refuses(opening, ReserveBlank{inventory.KindRunner, 0}, "0 blank tags")
}

// Kept numbers can't be given back, since the tags are out in the world.
func TestBlankTagsCannotBeUndone(t *testing.T) {
	c := openClubhouse(t)
	events := c.do(opening, ReserveBlank{inventory.KindRunner, 3})
	c.refuses(opening, Undo{Events: events}, "stay kept")
}

func TestContainers(t *testing.T) {
	c := openClubhouse(t)
	trunk := c.do(opening, NoteContainer{inventory.KindTrunk, "Trunk 4"})[0].Body.(*inventory.ContainerNoted).Container
	bin := c.do(opening, NoteContainer{inventory.KindBin, "Bin 3"})[0].Body.(*inventory.ContainerNoted).Container
	if trunk.Kind() != inventory.KindTrunk || bin.Kind() != inventory.KindBin {
		t.Errorf("%s and %s", trunk.Short(), bin.Short())
	}
	if found, err := inventory.FindContainer(&c.Ledger, bin); err != nil || found.Name != "Bin 3" {
		t.Errorf("%+v, %v", found, err)
	}
	if _, err := inventory.FindContainer(&c.Ledger, c.left); err == nil {
		t.Error("a holder was taken for a trunk")
	}
	c.refuses(opening, NoteContainer{inventory.KindBin, "Trunk 4"}, "Trunk 4 is T1-1-")
	c.refuses(opening, NoteContainer{inventory.KindBin, ""}, "its name is empty")
}

// Each print of a tag is counted by template and generation.
func TestPrintsAreCounted(t *testing.T) {
	c := openClubhouse(t)
	r := c.runners[0]
	for _, text := range []string{"4 08:00", "6 08:00", "5 08:00"} {
		c.do(text, NotePrints{{Template: "tie-on", Tags: []inventory.TagOfPiece{{Piece: r, Generation: 1}, {Piece: c.runners[1], Generation: 1}}}})
	}
	c.do("7 08:00", NotePrints{{Template: "tie-on", Tags: []inventory.TagOfPiece{{Piece: r, Generation: 2}}}})
	got := c.runner(r).PrintsOf("tie-on", 1)
	if got.Times != 3 || got.Last != when(t, "6 08:00") {
		t.Errorf("%+v", got)
	}
	if got := c.runner(r).PrintsOf("tie-on", 2); got.Times != 1 {
		t.Errorf("%+v", got)
	}
	if got := c.runner(c.runners[2]).PrintsOf("tie-on", 1); got.Times != 0 {
		t.Errorf("%+v", got)
	}
}

// What a player wore in an earlier season holds in it and not after, also of one who has
// left; what was nobody's of that sweater and season is his.
func TestSweatersOfOldSeasons(t *testing.T) {
	c := openClubhouse(t)
	find := func(sweater int, off string) inventory.Number {
		events := c.do("15 12:00", FindOld{Sweater: sweater, Inscription: "as it stands", CameOff: when(t, off), Place: &inventory.Place{Name: "bin 3"}})
		return events[0].Body.(*inventory.FoundOld).Piece
	}
	his, other, late, vague, theirs := find(38, "2023-11"), find(9, "2023-11"), find(38, "2024-09"), find(38, "2023"), find(31, "2023-11")
	c.do("15 12:00", ChangePlayer{Player: c.kit, Gone: new(true)})
	c.do("15 12:00", WoreSweater{Player: c.bo, Sweater: 38, Then: when(t, "2023/24")})
	for n, player := range map[inventory.Number]inventory.Number{his: c.bo, other: 0, late: 0, vague: 0} {
		r := c.runner(n)
		if place, _ := r.Places.At(theNow); r.Found.Player != player || r.Found.Text != "as it stands" || place.Name != "bin 3" {
			t.Errorf("%s: %+v at %v", n.Short(), r.Found, place)
		}
	}
	wears := func(n inventory.Number, at string, want int, gone bool) {
		t.Helper()
		for _, m := range inventory.RosterOf(&c.Ledger).Members {
			worn, _ := m.Sweaters.At(when(t, at).Start)
			if m.Player == n && (worn != want || m.GoneAt(when(t, at).Start) != gone) {
				t.Errorf("on %s he wears %d, gone %v", at, worn, m.GoneAt(when(t, at).Start))
			}
		}
	}
	c.do("15 12:01", WoreSweater{Player: c.kit, Sweater: 31, Then: when(t, "2023/24")})
	wears(c.kit, "14 12:00", 31, false)
	c.do("15 12:02", WoreSweater{Player: c.kit, Sweater: 30, Then: when(t, "2025/26")}) // until he took 31, which is noted already
	for _, w := range []struct {
		player inventory.Number
		at     string
		want   int
		gone   bool
	}{
		{c.bo, "2023-08-31", 0, false}, {c.bo, "2023-09-01", 38, false}, {c.bo, "2024-08-31", 38, false}, {c.bo, "2024-09-01", 0, false}, {c.bo, "14 12:00", 17, false},
		{c.kit, "2023-10-01", 31, false}, {c.kit, "2024-10-01", 0, false}, {c.kit, "2025-09-02", 30, false}, {c.kit, "14 12:00", 31, false}, {c.kit, "16 12:00", 0, true},
	} {
		wears(w.player, w.at, w.want, w.gone)
	}
	if p, _ := inventory.PlayerOf(&c.Ledger, c.kit); !p.Gone || c.runner(theirs).Found.Player != c.kit {
		t.Errorf("%+v, gone %v", c.runner(theirs).Found, p.Gone)
	}
	shared := find(38, "2024-03")
	c.do("15 12:03", WoreSweater{Player: c.kit, Sweater: 38, Then: when(t, "2023/24")})
	if r := c.runner(shared); r.Found.Player != 0 {
		t.Errorf("%+v: two wore 38 then", r.Found)
	}
	c.unflagged()
	c.refuses("15 12:00", WoreSweater{Player: c.bo, Sweater: 0, Then: when(t, "2023/24")}, "no sweater")
	c.refuses("15 12:00", WoreSweater{Player: c.bo, Sweater: 138, Then: when(t, "2023/24")}, "sweater 138")
	c.refuses("15 12:00", WoreSweater{Player: c.bo, Sweater: 38, Then: when(t, "2031/32")}, "no season that has been")
	c.refuses("15 12:00", WoreSweater{Player: c.bo, Sweater: 38, Then: when(t, "14 12:00")}, "no season that has been")
}
