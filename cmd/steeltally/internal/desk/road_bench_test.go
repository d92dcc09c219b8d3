package desk

import (
	"flag"
	"path/filepath"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
	"steeltally/inventory/deeds"
)

// benchEvents is how big the book is that the answers for the road come from: a season
// unless told; go test -bench Road -events 1000000 shows 25 of them.
var benchEvents = flag.Int("events", 40_000, "events in the book of the benchmarks")

// roadBook is a book of a size in which one player, who wears 88, has a first pair, a
// spare pair, a ready set, and holders in a trunk.
func roadBook(b *testing.B) Options {
	b.Helper()
	dir := filepath.Join(b.TempDir(), "book")
	now := booktest.Noted()
	o := Options{Book: dir, Now: func() time.Time { return now }}
	if err := Init(o, deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1}); err != nil {
		b.Fatal(err)
	}
	bk, err := book.Open(dir, book.Options{})
	if err != nil {
		b.Fatal(err)
	}
	seasons := booktest.NewSeasons()
	if err := bk.Bulk(func(record book.Recorder) error { return seasons.Play(record, *benchEvents) }); err != nil {
		b.Fatal(err)
	}
	if err := bk.Close(); err != nil {
		b.Fatal(err)
	}
	now = now.AddDate(100, 0, 0)
	equip(b, o)
	return o
}

// equip gives the player what he has.
func equip(b *testing.B, o Options) {
	b.Helper()
	d, err := Open(o)
	if err != nil {
		b.Fatal(err)
	}
	defer d.Close()
	must := func(_ any, err error) {
		b.Helper()
		if err != nil {
			b.Fatal(err)
		}
	}
	_, _, err = d.AddPlayer(deeds.AddPlayer{Name: "Bo Quillon", Position: "defence", Sweater: 88})
	must(nil, err)
	five := 5
	must(d.NoteSpecs("88", inventory.Specs{Passes: &five}))
	for _, role := range []inventory.Role{inventory.RoleFirst, inventory.RoleSpare} {
		pair, _, err := d.AddPair("88", role)
		must(nil, err)
		for _, side := range inventory.Sides() {
			holders, _, err := d.StockIn(deeds.StockIn{Piece: inventory.KindHolder, Model: "H", Size: 280, Side: side, Count: 3, Place: &inventory.Place{Name: "trunk 4"}})
			must(nil, err)
			must(d.RivetOn(holders[0].String(), pair.String(), side))
		}
	}
	for _, role := range []inventory.Role{inventory.RoleFirst, inventory.RoleSpare, ""} {
		runners, _, err := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "R", Size: 280, Count: 2})
		must(nil, err)
		set, _, err := d.AddSet("88", "", runners[0].String(), runners[1].String())
		must(nil, err)
		if role != "" {
			must(d.PutIn("88", set.Letter, string(role)))
		}
	}
}

// reopened measures something from opening the book to closing it, as a command does.
func reopened(b *testing.B, o Options, act func(d *Desk) error) {
	b.Helper()
	for b.Loop() {
		d, err := Open(o)
		if err != nil {
			b.Fatal(err)
		}
		if err := act(d); err != nil {
			b.Fatal(err)
		}
		if err := d.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRoad measures the answers that a person waits for while the clock runs.
func BenchmarkRoad(b *testing.B) {
	o := roadBook(b)
	b.Run("emergency", func(b *testing.B) {
		reopened(b, o, func(d *Desk) error {
			rescue, _, err := d.Emergency(Alarm{Who: "88", Side: inventory.Right, Broke: "holder"})
			if len(rescue.Options) < 4 {
				b.Fatalf("only %+v", rescue.Options)
			}
			return err
		})
	})
	b.Run("spare", func(b *testing.B) {
		reopened(b, o, func(d *Desk) error {
			_, err := d.Spares(SparesAsked{Players: []string{"88"}})
			return err
		})
	})
	b.Run("spares", func(b *testing.B) {
		reopened(b, o, func(d *Desk) error {
			_, err := d.Spares(SparesAsked{})
			return err
		})
	})
	b.Run("work", func(b *testing.B) {
		reopened(b, o, func(d *Desk) error {
			_, err := d.Work()
			return err
		})
	})
}
