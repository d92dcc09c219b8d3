package review

import (
	"strings"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

type millimetre = geometry.Millimetre

// TestSortBin tells duplicates, foreign, unknown and old tags apart, whatever the order.
func TestSortBin(t *testing.T) {
	b := &bench{t: t}
	tag := func(n inventory.Number, generation int, out string) string {
		height, final := millimetre(21), millimetre(15.4)
		return inventory.Tally{
			Piece: n, Generation: generation, Player: b.player(1), Sweater: 17, Side: inventory.Left, In: "250901", Out: out,
			New: &height, Final: &final, Grinds: 50, Passes: 250, Reason: "LOW",
		}.String()
	}
	first, second, numberOnly := b.runner(), b.runner(), b.runner()
	player := b.player(4)
	broken := tag(first, 1, "250915")
	scans := []string{
		"# a comment", "", tag(first, 1, "250915"), tag(second, 1, "250910"), tag(second, 2, "251001"),
		first.String(), numberOnly.Short(), "4006381333931", player.String(), broken[:len(broken)-1] + "x",
	}
	for range 2 {
		bin := NewReader(&inventory.Ledger{}, nil, time.Time{}, theEnd).SortBin(scans)
		if len(bin.Lives) != 2 || len(bin.Duplicates) != 1 || len(bin.Foreign) != 3 || len(bin.Unknown) != 1 || len(bin.Stale) != 1 || len(bin.Misplaced) != 0 {
			t.Fatalf("%d lives, %d duplicates, %d foreign, %d unknown, %d stale, %d misplaced", len(bin.Lives), len(bin.Duplicates),
				len(bin.Foreign), len(bin.Unknown), len(bin.Stale), len(bin.Misplaced))
		}
		if bin.Unknown[0].Number != numberOnly || bin.Duplicates[0].Number != first || bin.Stale[0].Number != second || !strings.Contains(bin.Stale[0].What, "throw the tag away") {
			t.Errorf("unknown %v, duplicate %v, stale %v", bin.Unknown, bin.Duplicates, bin.Stale)
		}
		for _, life := range bin.Lives {
			if life.Number == second && !life.Out.Start.Equal(time.Date(2025, 10, 1, 0, 0, 0, 0, time.UTC)) {
				t.Errorf("the old tag counts: off on %v", life.Out.Start)
			}
		}
		scans[2], scans[5] = scans[5], scans[2] // the number is scanned before its tag
		scans[3], scans[4] = scans[4], scans[3] // and the new tag before the old one
	}
}
