package book_test

import (
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book/booktest"
)

// A random book has flagged things among the recent events and among the stored ones,
// after every way in which states are stored; the check of the fold compares them.
func TestFlaggedThingsAreListed(t *testing.T) {
	flagged := 0
	for seed := range uint64(5) {
		dir := booktest.Make(t)
		drive(t, dir, 500+seed, 300)
		b := booktest.Open(t, dir)
		booktest.CheckFold(t, b)
		flagged += len(booktest.FlaggedPieces(t, b))
	}
	if flagged < 10 {
		t.Errorf("only %d things were flagged: nothing was compared", flagged)
	}
}

// A contradiction is flagged when it is recorded, and no more once it is taken back.
func TestAFlagGoesWithItsCause(t *testing.T) {
	b := booktest.Open(t, booktest.Make(t))
	runner, err := inventory.NewNumber(inventory.KindRunner, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	raw := []byte(`{"piece":"` + runner.String() + `"}`)
	recorded := booktest.Record(t, b, inventory.Draft{Body: &inventory.Foreign{Name: "engrave", Raw: raw}})
	for range 300 { // until it is stored
		booktest.Record(t, b, booktest.Opening()...)
	}
	if got := booktest.FlaggedPieces(t, b); len(got) != 1 || got[0] != inventory.RefOf(runner) {
		t.Errorf("flagged is %v, want %s", got, runner)
	}
	correction := &inventory.Correction{Voids: []inventory.Key{recorded[0].Key}, About: []inventory.Number{runner}}
	booktest.Record(t, b, inventory.Draft{Body: correction})
	if got := booktest.FlaggedPieces(t, b); len(got) != 0 {
		t.Errorf("flagged is %v after what flagged it was voided", got)
	}
}
