package deeds

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// binTag is the tally of a removed left runner, as its tag carries it.
func binTag(change func(*inventory.Tally)) string {
	player, _ := inventory.NewNumber(inventory.KindPlayer, 1, 17)
	runner, _ := inventory.NewNumber(inventory.KindRunner, 1, 427)
	half, _ := inventory.ParseCut("1/2in")
	t := inventory.Tally{
		Piece: runner, Generation: 2, Player: player, Sweater: 17, Side: inventory.Left, In: "250914", Out: "251128",
		New: mm(11.9), Final: mm(9.4), Grinds: 41, Passes: 205, Hollow: half, Reason: "LOW",
	}
	if change != nil {
		change(&t)
	}
	return t.String()
}

func (d *desk) rebuild(scans ...string) TagSort {
	d.t.Helper()
	sorted := SortTags(&d.Ledger, theNow, scans)
	if len(sorted.New) > 0 {
		d.do("15 12:00", KnowFromTags(sorted.New))
	}
	return sorted
}

// refusedFor checks that one scan was refused for a reason, and nothing taken.
func refusedFor(t *testing.T, sorted TagSort, reason string) {
	t.Helper()
	if len(sorted.New) != 0 || len(sorted.Refused) != 1 || !strings.Contains(sorted.Refused[0].Reason, reason) || sorted.Refused[0].Hint == "" {
		t.Errorf("taken %d, refused %+v; want one refused with %q", len(sorted.New), sorted.Refused, reason)
	}
}

// A tag alone brings back what it says: state, side, dates, heights, grinds, passes,
// and the same tag can be printed again from it.
func TestTagBringsBackARemovedRunner(t *testing.T) {
	d, text := openBook(t), binTag(nil)
	if sorted := d.rebuild(text); len(sorted.New) != 1 || sorted.Duplicates != 0 || len(sorted.Refused) != 0 {
		t.Fatalf("%+v", sorted)
	}
	tally, _ := inventory.ParseTally(text)
	r, err := inventory.FindRunner(&d.Ledger, tally.Piece)
	if err != nil {
		t.Fatal(err)
	}
	wear := r.WearAt(theNow)
	if wear.Grinds != 41 || wear.Passes != 205 || wear.UnknownWorks != 0 || *wear.HeightNew != 11.9 || *wear.HeightFinal != 9.4 {
		t.Errorf("wear %+v", wear)
	}
	if r.StateAt(theNow) != inventory.Removed || r.SideAt(theNow) != inventory.Left || r.Generation(theNow) != 2 || r.Recorded() {
		t.Errorf("%s, %s, generation %d, own record %v", r.StateAt(theNow), r.SideAt(theNow), r.Generation(theNow), r.Recorded())
	}
	if got := r.Tag.Tally(time.UTC).String(); got != text {
		t.Errorf("printed again:\n%s, want\n%s", got, text)
	}
	stints := r.Stints(theNow)
	if len(stints) != 1 || stints[0].Reason != "low" || stints[0].Out.SayDay(time.UTC) != "28 Nov 2025" || stints[0].In.SayDay(time.UTC) != "14 Sep 2025" {
		t.Errorf("stints %+v", stints)
	}
	if worn := inventory.RosterOf(&d.Ledger).Wearing(17, theNow); len(worn) != 1 || worn[0].Player != tally.Player {
		t.Errorf("17 is worn by %+v", worn)
	}
	d.told("players known by sweater only: 1")
	d.unflagged()
}

// What a tag says survives the journal: the state is the same after writing and reading.
func TestTagFactsSurviveTheJournal(t *testing.T) {
	d := openBook(t)
	d.rebuild(binTag(nil))
	tally, _ := inventory.ParseTally(binTag(nil))
	written, err := json.Marshal(d.runner(tally.Piece))
	if err != nil {
		t.Fatal(err)
	}
	var again inventory.Runner
	if err := json.Unmarshal(written, &again); err != nil {
		t.Fatal(err)
	}
	if !again.Tag.Agrees(d.runner(tally.Piece).Tag.Out, &d.runner(tally.Piece).Tag.KnownFromTag) || again.Generation(theNow) != 2 {
		t.Errorf("read back as %s", written)
	}
}

// Of a heap of scans, in any order: duplicates count once, the highest generation wins.
func TestHeapOfScans(t *testing.T) {
	current, stale := binTag(nil), binTag(func(t *inventory.Tally) { t.Generation, t.Out = 1, "250930" })
	for _, heap := range [][]string{{current, stale, current, "", current}, {stale, current, current, current}, {stale, stale, current, current}} {
		d := openBook(t)
		sorted := d.rebuild(heap...)
		if len(sorted.New) != 1 || sorted.New[0].Generation != 2 || sorted.Duplicates != 2 {
			t.Errorf("%d taken, %d duplicates", len(sorted.New), sorted.Duplicates)
		}
		if len(sorted.Refused) != 1 || !strings.HasPrefix(sorted.Refused[0].Reason, "stale: the tag is of generation 1") {
			t.Errorf("refused %+v", sorted.Refused)
		}
	}
}

// Scanned one after another on different days, the highest generation counts in the end.
func TestHeapsOnDifferentDays(t *testing.T) {
	d := openBook(t)
	stale, current := binTag(func(t *inventory.Tally) { t.Generation, t.Out, t.Passes = 1, "250930", 90 }), binTag(nil)
	d.rebuild(stale)
	tally, _ := inventory.ParseTally(current)
	if wear := d.runner(tally.Piece).WearAt(theNow); wear.Passes != 90 {
		t.Errorf("after the stale tag: %+v", wear)
	}
	if sorted := d.rebuild(current); len(sorted.New) != 1 {
		t.Errorf("the current tag: %+v", sorted)
	}
	if wear := d.runner(tally.Piece).WearAt(theNow); wear.Passes != 205 {
		t.Errorf("after the current tag: %+v", wear)
	}
	refusedFor(t, d.rebuild(stale), "stale: the tag is of generation 1, the record has generation 2")
	if sorted := d.rebuild(current); sorted.Duplicates != 1 || len(sorted.New)+len(sorted.Refused) != 0 {
		t.Errorf("once more: %+v", sorted)
	}
	refusedFor(t, d.rebuild(binTag(func(t *inventory.Tally) { t.Final = mm(9.1) })), "another tag of the same generation says something else")
}

// Nothing is taken from what is not whole, not ours, or impossible.
func TestScansThatAreRefused(t *testing.T) {
	text := binTag(nil)
	tally, _ := inventory.ParseTally(text)
	for _, c := range []struct{ scan, reason string }{
		{tally.Piece.String(), "a number alone"},
		{tally.Piece.Short(), "a number alone"},
		{strings.Replace(text, "205", "204", 1), "check digits do not fit"},
		{text[:len(text)-1], "check digits do not fit"},
		{text[:40], "check digits do not fit"},
		{"4006381333931", "13 digits"},
		{"https://terns.example/17", "not one of our numbers"},
		{binTag(func(t *inventory.Tally) { t.Out = "251328" }), "251328 is no date"},
		{binTag(func(t *inventory.Tally) { t.Out = "2511281" }), "2511281 where a date belongs"},
		{binTag(func(t *inventory.Tally) { t.Out = "271128" }), "still to come"},
		{binTag(func(t *inventory.Tally) { t.Out = "240101" }), "it came off before it went in"},
		{binTag(func(t *inventory.Tally) { t.Final = mm(94) }), "94.00 mm"},
		{binTag(func(t *inventory.Tally) { t.Generation = 0 }), "never in use"},
	} {
		refusedFor(t, openBook(t).rebuild(c.scan), c.reason)
	}
}

// What the record knows itself it keeps: a removed piece, one in use, one put back.
func TestTheRecordKnowsBetter(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("2 08:00", c.setA)
	c.change("4 08:00", c.setB, "low")
	r := c.runners[0]
	tagOf := func(n inventory.Number, generation int) string {
		return binTag(func(t *inventory.Tally) { t.Piece, t.Generation, t.In, t.Out = n, generation, "251102", "251104" })
	}
	before := len(c.Events())
	refusedFor(t, c.rebuild(tagOf(r, 1)), "the record knows the piece itself: removed")
	refusedFor(t, c.rebuild(tagOf(c.runners[2], 1)), "the record knows the piece itself: on")
	refusedFor(t, c.rebuild(tagOf(c.runners[4], 1)), "the record knows the piece itself: ready")
	c.change("6 08:00", c.setA, "rotate")
	refusedFor(t, c.rebuild(tagOf(r, 1)), "stale: the tag is of generation 1, the record has generation 2")
	if added := len(c.Events()) - before; added != 2 {
		t.Errorf("%d entries for one change of steel", added)
	}
}

// A cracked or broken runner is not skated on, also when only its tag is left.
func TestTagOfACrackedRunnerForbidsUse(t *testing.T) {
	d := openBook(t)
	for i, reason := range []string{"CRA", "BRO", "BEN", "LOW"} {
		n, _ := inventory.NewNumber(inventory.KindRunner, 1, 900+i)
		d.rebuild(binTag(func(t *inventory.Tally) { t.Piece, t.Reason = n, reason }))
		if got, want := d.runner(n).DoNotSkate(theNow), reason != "LOW"; got != want {
			t.Errorf("%s: do not skate %v, want %v", reason, got, want)
		}
	}
}

// A runner that is known from its tag can be used again: its life goes on from there.
func TestLifeGoesOnFromTheTag(t *testing.T) {
	c := openClubhouse(t)
	c.rebuild(binTag(nil))
	tally, _ := inventory.ParseTally(binTag(nil))
	set := given(t, c.do("29 08:00", MakeSet{Player: c.bo, Left: tally.Piece, Right: c.runners[5]}))
	c.stateOf("29 09:00", tally.Piece, inventory.Ready)
	c.putIn("29 10:00", set)
	c.grind("29 11:00")
	c.do("30 08:00", TakeOut{Player: c.bo, Reason: "low", Heights: inventory.Both[millimetre]{Left: mm(9.2)}})
	r := c.runner(tally.Piece)
	wear := r.WearAt(theNow)
	if wear.Grinds != 42 || wear.Passes != 210 || *wear.HeightNew != 11.9 || *wear.HeightFinal != 9.2 {
		t.Errorf("wear %+v", wear)
	}
	if got := r.Generation(theNow); got != 3 {
		t.Errorf("generation %d, want 3", got)
	}
	refusedFor(t, c.rebuild(binTag(func(t *inventory.Tally) { t.Generation = 1 })), "stale")
	c.unflagged()
}

// A rebuilt record and the true one make one record: the true one counts, also for
// whom the tags knew by sweater only.
func TestTrueRecordComesBack(t *testing.T) {
	truth := openClubhouse(t)
	truth.putIn("2 08:00", truth.setA)
	truth.grind("3 08:00")
	truth.change("4 08:00", truth.setB, "low")
	r := truth.runner(truth.runners[0])
	wear := r.WearAt(theNow)
	rebuilt := &desk{t: t, writer: inventorytest.SecondWriter}
	rebuilt.do(opening, FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1})
	rebuilt.rebuild(binTag(func(t *inventory.Tally) {
		t.Piece, t.Generation, t.Player, t.In, t.Out, t.Grinds, t.Passes = r.Number, 1, truth.bo, "251102", "251104", 1, 5
	}))
	rebuilt.merge(truth.desk)
	for _, record := range []*desk{rebuilt, truth.desk} {
		if got := record.runner(r.Number); got.WearAt(theNow) != wear || got.Generation(theNow) != 1 || !got.Recorded() {
			t.Errorf("after merging: %+v, want %+v", got.WearAt(theNow), wear)
		}
		if name := record.player(truth.bo).Name; name != "Bo Quillon" {
			t.Errorf("the player is called %q", name)
		}
	}
	newer := &desk{t: t, writer: "00000000000000c3"}
	newer.do(opening, FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1})
	newer.rebuild(binTag(func(t *inventory.Tally) { t.Piece, t.Generation = r.Number, 2 }))
	newer.merge(truth.desk)
	truth.flagged(r.Number, "used more often than is recorded here")
}

// Fields of a later version of the tag are carried, and printed again.
func TestLaterFieldsAreCarried(t *testing.T) {
	text := binTag(func(t *inventory.Tally) { t.Later = []string{"H7", ""} })
	d := openBook(t)
	d.rebuild(text)
	tally, _ := inventory.ParseTally(text)
	if got := d.runner(tally.Piece).Tag.Tally(time.UTC).String(); got != text {
		t.Errorf("%s, want %s", got, text)
	}
}

func TestTallyDatesAreAsVagueAsTheyAre(t *testing.T) {
	for text, want := range map[string]string{"251128": "28 Nov 2025", "2511": "Nov 2025", "25": "2025", "": "date unknown"} {
		read, err := inventory.TallyWhen(text, time.UTC)
		if err != nil || read.SayDay(time.UTC) != want || inventory.TallyDate(read, time.UTC) != text {
			t.Errorf("%q is read as %s (%v) and written as %q", text, read.SayDay(time.UTC), err, inventory.TallyDate(read, time.UTC))
		}
	}
	for _, text := range []string{"250230", "2513", "1", "25112", "xx"} {
		if read, err := inventory.TallyWhen(text, time.UTC); err == nil {
			t.Errorf("%q is read as %s", text, read.Say(time.UTC))
		}
	}
}

func TestTagBringsBackAHolder(t *testing.T) {
	holder, _ := inventory.NewNumber(inventory.KindHolder, 2, 14)
	text := inventory.Tally{Piece: holder, Generation: 1, Sweater: 8, Side: inventory.Right, In: "2509", Out: "2512", Reason: "CRA"}.String()
	d := openBook(t)
	if sorted := d.rebuild(text, text); len(sorted.New) != 1 || sorted.Duplicates != 1 {
		t.Fatalf("%+v", sorted)
	}
	h, err := inventory.FindHolder(&d.Ledger, holder)
	if err != nil {
		t.Fatal(err)
	}
	if h.StateAt(theNow) != inventory.Removed || h.SideOf() != inventory.Right || !h.DoNotSkate(theNow) || h.Tag.Tally(time.UTC).String() != text {
		t.Errorf("%s, %s, do not skate %v, %s", h.StateAt(theNow), h.SideOf(), h.DoNotSkate(theNow), h.Tag.Tally(time.UTC))
	}
}
