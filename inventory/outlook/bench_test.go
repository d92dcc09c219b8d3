package outlook

import (
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// bench is an invented club's record in memory, to which deeds are given.
type bench struct {
	inventory.Ledger
	t    *testing.T
	last uint64
}

// theNow is when every deed is given and every question asked, unless told: a
// Wednesday morning.
var theNow = time.Date(2025, 11, 26, 9, 0, 0, 0, time.UTC)

func openBench(t *testing.T) *bench {
	b := &bench{t: t}
	b.do(day(-100), deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "Europe/Oslo", Station: 1})
	return b
}

// day is an instant so many days from now.
func day(n int) time.Time { return theNow.AddDate(0, 0, n) }

// do gives a deed that happened at a time.
func (b *bench) do(at time.Time, deed deeds.Deed) []inventory.Event {
	b.t.Helper()
	return b.doVaguely(inventory.At(at), deed)
}

func (b *bench) doVaguely(when inventory.When, deed deeds.Deed) []inventory.Event {
	b.t.Helper()
	outcome, err := deed.Decide(b, deeds.Moment{Happened: when, Now: theNow})
	if err != nil {
		b.t.Fatalf("%T: %v", deed, err)
	}
	var events []inventory.Event
	for _, draft := range outcome.Drafts {
		b.last++
		events = append(events, inventory.Event{
			Key: inventory.Key{Writer: "00000000000000a1", Sequence: b.last}, Logical: b.last,
			Happened: draft.Happened, Noted: theNow, Who: "ina", Body: draft.Body,
		})
	}
	b.Add(events...)
	return events
}

// skater is a player with a first pair and a change height of 8.4 mm.
func (b *bench) skater(sweater int, position string) inventory.Number {
	b.t.Helper()
	low := geometry.Millimetre(8.4)
	usual := 5
	names := map[int]string{7: "Tove Brimhalt", 17: "Ansgar Lindqvarn", 31: "Kit Marrable"}
	player := b.do(day(-100), deeds.AddPlayer{Name: names[sweater], Sweater: sweater, Position: position})[0].Body.(*inventory.PlayerNoted).Player
	b.do(day(-100), deeds.NoteSpecs{Player: player, Specs: inventory.Specs{ChangeHeight: &low, Passes: &usual}})
	b.do(day(-100), deeds.AddPair{Player: player, Role: "first"})
	return player
}

// steel is a new set of a player, of steel 11.9 mm high.
func (b *bench) steel(player inventory.Number, model string) inventory.Number {
	b.t.Helper()
	height := geometry.Millimetre(11.9)
	runners := b.do(day(-100), deeds.StockIn{Piece: inventory.KindRunner, Model: model, Size: 280, Height: &height, Count: 2})[0].Body.(*inventory.StockedIn).Pieces
	return b.do(day(-100), deeds.MakeSet{Player: player, Left: runners[0], Right: runners[1]})[0].Body.(*inventory.SetMade).Set
}

// grind gives both sides so many passes; 0 is passes that nobody counted.
func (b *bench) grind(at time.Time, player inventory.Number, passes int) {
	b.t.Helper()
	work := deeds.Grind{Player: player, Unknown: passes == 0}
	if passes > 0 {
		work.Passes = inventory.Both[int]{Left: &passes, Right: &passes}
	}
	b.do(at, work)
}

// measure notes the same height of both sides.
func (b *bench) measure(at time.Time, player inventory.Number, reference inventory.Reference, height geometry.Millimetre) {
	b.t.Helper()
	b.measureSides(at, player, reference, height, height)
}

func (b *bench) measureSides(at time.Time, player inventory.Number, reference inventory.Reference, left, right geometry.Millimetre) {
	b.t.Helper()
	heights := inventory.Both[inventory.Height]{Left: &inventory.Height{Middle: &left}, Right: &inventory.Height{Middle: &right}}
	deed, err := deeds.MeasureOn(b, player, 0, heights, deeds.Moment{Happened: inventory.At(at), Now: theNow})
	if err != nil {
		b.t.Fatal(err)
	}
	deed.Reference, deed.AsRead = reference, true
	b.do(at, deed)
}

// worn is a set that goes on and is ground and measured as the trade's example: 0.0213
// mm a pass, three heights, the last of them so many days ago.
func (b *bench) worn(player, set inventory.Number, ago int) {
	b.t.Helper()
	b.do(day(-ago-40), deeds.PutSetIn{Player: player, Set: set})
	for i, height := range []geometry.Millimetre{11.06, 10.18, 9.34} {
		at := day(-ago - 30 + 15*i)
		b.grind(at.Add(-2*time.Hour), player, 40)
		b.measure(at.Add(-time.Hour), player, inventory.Fitted, height)
	}
}

// look learns from everything noted so far.
func (b *bench) look() *Outlook {
	b.t.Helper()
	var members []*standing.Member
	for _, m := range inventory.RosterOf(b).Members {
		member, err := standing.Gather(b, m.Player, theNow)
		if err != nil {
			b.t.Fatal(err)
		}
		members = append(members, member)
	}
	o, err := lookAt(b, members)
	if err != nil {
		b.t.Fatal(err)
	}
	return o
}

// due is what is said of the sets on first pairs.
func (b *bench) due(players ...inventory.Number) []Due {
	b.t.Helper()
	first, _, unworked := b.look().Due(players...)
	if len(unworked) > 0 {
		b.t.Fatalf("%+v", unworked)
	}
	return first
}

func (b *bench) only(player inventory.Number) Due {
	b.t.Helper()
	list := b.due(player)
	if len(list) != 1 {
		b.t.Fatalf("%d sets are on, not one", len(list))
	}
	return list[0]
}

// lookAt learns from some players.
func lookAt(v inventory.View, members []*standing.Member, ungathered ...inventory.Unworked) (*Outlook, error) {
	learnt, err := standing.Learn(members, theNow, wear.Defaults(), ungathered...)
	if err != nil {
		return nil, err
	}
	return Look(learnt, ReadSchedule(v, theNow), wear.Defaults()), nil
}
