package main

import (
	"runtime"
	"slices"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

// grindEach is how many scans there are to one grind, so that in the whole soak each set
// is ground some seventy times, as often as in its life: states grow with what is known.
const grindEach = 50

// heapSlack is by how many bytes what the program holds may grow through the soak: the
// states of 28 players' steel with those grinds.
const heapSlack = 8 << 20

// A season of scans through one open desk leaves nothing behind in memory: 100,000 with
// -full, else a twentieth.
func TestScansLeaveNothingBehind(t *testing.T) {
	scans := 5_000
	if *full {
		scans = 100_000
	}
	d, _ := smallClub(t)
	players := withSteel(t, d)
	var quarter uint64
	for i := range scans {
		scanOnce(t, d, players, i)
		if i == scans/4 {
			quarter = heapHeld()
		}
	}
	end := heapHeld()
	t.Logf("%.1f MB after a quarter of %d scans, %.1f MB at the end", float64(quarter)/1e6, scans, float64(end)/1e6)
	if end > quarter+heapSlack {
		t.Errorf("%d bytes were held after a quarter of the scans, %d at the end", quarter, end)
	}
}

// scanOnce scans a player, and grinds now and then.
func scanOnce(t testing.TB, d *desk.Desk, players []string, i int) {
	t.Helper()
	card, err := d.Card(players[i%len(players)])
	if err != nil || len(card.Lines) == 0 {
		t.Fatalf("scan %d: %v, %v", i, card, err)
	}
	if i%grindEach != 0 {
		return
	}
	done, err := d.Grind([]string{players[i/grindEach%len(players)]}, nil, "", deeds.Grind{})
	if err != nil || len(done.Events) == 0 {
		t.Fatalf("grind %d: %v, %v", i, done, err)
	}
}

func heapHeld() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// withSteel lists the players who have steel on.
func withSteel(t testing.TB, d *desk.Desk) []string {
	t.Helper()
	players, err := d.Players()
	if err != nil {
		t.Fatal(err)
	}
	var with []string
	for _, p := range players {
		if p.On != "" {
			with = append(with, p.Number.String())
		}
	}
	if len(with) < 10 {
		t.Fatalf("only %d players have steel on", len(with))
	}
	return with
}

// BenchmarkScan measures the answer to a scan at the jig, the book being open: the card
// of a player, and a grind on disk. Less than 10 ms are wanted. With -book it is
// measured on that book, and adds to it.
func BenchmarkScan(b *testing.B) {
	d, _ := smallClub(b)
	if *largeBook != "" {
		var err error
		if d, err = desk.Open(desk.Options{Book: *largeBook, Now: time.Now}); err != nil {
			b.Fatal(err)
		}
		b.Cleanup(func() { _ = d.Close() })
	}
	players := withSteel(b, d)
	answers := map[string]func(player string) error{
		"card": func(player string) error { _, err := d.Card(player); return err },
		"grind": func(player string) error {
			_, err := d.Grind([]string{player}, nil, "", deeds.Grind{})
			return err
		},
	}
	for _, name := range []string{"card", "grind"} {
		b.Run(name, func(b *testing.B) {
			var took []time.Duration
			for b.Loop() {
				for i := range 500 {
					start := time.Now()
					if err := answers[name](players[i%len(players)]); err != nil {
						b.Fatal(err)
					}
					took = append(took, time.Since(start))
				}
			}
			slices.Sort(took)
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(milliseconds(took[len(took)/2]), "p50-ms")
			b.ReportMetric(milliseconds(took[len(took)*99/100]), "p99-ms")
		})
	}
}
