package main

import (
	"bytes"
	"context"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/cli"
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// runLine runs one command line at a fixed time, with nobody at a terminal.
func runLine(t *testing.T, line ...string) string {
	t.Helper()
	var said bytes.Buffer
	world := cli.World{
		Stdin: strings.NewReader(""), Stdout: &said, Stderr: &said,
		Getenv: func(string) string { return "" }, Now: func() time.Time { return fixedNow },
	}
	if code := cli.Main(context.Background(), world, line); code != 0 {
		t.Fatalf("%v: exit code %d: %s", line, code, &said)
	}
	return said.String()
}

// A whole club's bin of tags, shuffled and scanned twice, gives back what the lost book
// knew of every removed runner: side, dates, heights, grinds and passes.
func TestABinOfTagsIsAsGoodAsTheBook(t *testing.T) {
	if testing.Short() {
		t.Skip("it makes a club's one and a half seasons")
	}
	dir := t.TempDir()
	runLine(t, "demo", "--dir", dir)
	lost := openBook(t, filepath.Join(dir, "book"))
	removed := removedRunners(t, lost)
	if len(removed) < 100 {
		t.Fatalf("only %d removed runners to scan", len(removed))
	}
	scans := tallies(t, lost, removed)
	slices.Sort(scans) // by number, not as they were tagged
	again := desk.Options{Book: filepath.Join(dir, "again"), Now: func() time.Time { return fixedNow }}
	result, err := desk.RebuildFromTags(again, deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: lost.Zone().String(), Station: -1}, append(scans, scans...))
	if err != nil || result.Rebuilt != len(removed) || result.Duplicates != len(removed) || len(result.Refused) != 0 {
		t.Fatalf("%d rebuilt of %d, %d duplicates, refused %+v, %v", result.Rebuilt, len(removed), result.Duplicates, result.Refused, err)
	}
	rebuilt := openBook(t, again.Book)
	for _, n := range removed {
		if was, is := removedState(t, lost, n), removedState(t, rebuilt, n); was != is {
			t.Errorf("%s: the lost book said %+v, its tag %+v", n.Short(), was, is)
		}
	}
}

func openBook(t *testing.T, path string) *desk.Desk {
	t.Helper()
	d, err := desk.OpenToRead(desk.Options{Book: path, Now: func() time.Time { return fixedNow }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

// removedRunners lists the runners that are done with and in the bin: what was scrapped
// took its tag along.
func removedRunners(t *testing.T, d *desk.Desk) []inventory.Number {
	t.Helper()
	var removed []inventory.Number
	for running := 1; ; running++ {
		n, err := inventory.NewNumber(inventory.KindRunner, 1, running)
		if err != nil {
			t.Fatal(err)
		}
		h, err := d.History(n.String(), false)
		if err != nil {
			return removed
		}
		if r, ok := h.State.(*inventory.Runner); ok && r.StateAt(fixedNow) == inventory.Removed && !r.ScrappedAt(fixedNow) {
			removed = append(removed, n)
		}
	}
}

// tallies are the texts on the tie-on tags of runners.
func tallies(t *testing.T, d *desk.Desk, pieces []inventory.Number) []string {
	t.Helper()
	tags, err := d.ExplainTags(desk.TagJob{Pieces: pieces, Template: "tie-on"})
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for _, tag := range tags {
		for _, symbol := range tag.Symbols {
			if inventory.IsTally(symbol.Text) {
				texts = append(texts, symbol.Text)
			}
		}
	}
	return texts
}

// known is what must be the same, as exactly as a tag carries it.
type known struct {
	side           inventory.Side
	generation     int
	out            string
	grinds, passes int
	uncounted      bool
	final, first   string
	doNotSkate     bool
}

func removedState(t *testing.T, d *desk.Desk, n inventory.Number) known {
	t.Helper()
	h, err := d.History(n.String(), false)
	if err != nil {
		t.Fatal(err)
	}
	r := h.State.(*inventory.Runner)
	wear, stints := r.WearAt(fixedNow), r.Stints(fixedNow)
	k := known{
		side: r.SideAt(fixedNow), generation: r.Generation(fixedNow), grinds: wear.Grinds, passes: wear.Passes,
		uncounted: wear.UnknownWorks > 0, doNotSkate: r.DoNotSkate(fixedNow),
	}
	if len(stints) > 0 {
		k.out = stints[len(stints)-1].Out.SayDay(d.Zone())
	}
	if wear.HeightFinal != nil {
		k.final = wear.HeightFinal.String()
	}
	if wear.HeightNew != nil {
		k.first = wear.HeightNew.String()
	}
	return k
}
