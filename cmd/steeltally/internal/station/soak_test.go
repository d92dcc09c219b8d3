package station

import (
	"flag"
	"runtime"
	"slices"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// lifeGrinds is how often a set is ground before it is changed in the soak, as often as
// in its life: the state of a piece grows with what was done to it.
const lifeGrinds = 70

// TestScansAreNeitherLostNorDoubled sends scan after scan of a team through the page's
// endpoint, every seventh of them twice, as after a lost answer, and changes each set
// at the end of its life: 20,000 scans with -full.
func TestScansAreNeitherLostNorDoubled(t *testing.T) {
	s := newStand(t)
	scans, team := 400, []int{17, 23}
	if *full {
		scans = 20_000
		for sweater := 30; sweater < 50; sweater++ {
			must(t, s.station.book.use("", func(d *desk.Desk) error { s.addPlayer(d, sweater); return nil }))
			team = append(team, sweater)
		}
	}
	start, slowest := heap(), time.Duration(0)
	now := talk{State: jig.State{Grinding: true}}
	for i := range scans {
		s.now = s.now.Add(2 * time.Minute)
		player, round := numeral(team[i%len(team)]), i/len(team)
		if round%lifeGrinds == lifeGrinds-1 {
			s.changeSet(i, player)
		}
		began := time.Now()
		for range 1 + i%7/6 {
			if said := s.say("scan "+numeral(i), player, now); said.Tone != toneDone {
				t.Fatalf("scan %d: %s", i, said.Told)
			}
		}
		slowest = max(slowest, time.Since(began))
		if i == scans/4 {
			start = heap()
		}
	}
	if got := s.kind("grind"); got != scans {
		t.Errorf("%d grinds of %d scans", got, scans)
	}
	// What is held between two scans does not grow with the record.
	end := heap()
	t.Logf("%d scans of %d players; %.1f MB after a quarter of them, %.1f MB at the end; the slowest took %v", scans, len(team), float64(start)/1e6, float64(end)/1e6, slowest)
	if end > start+16<<20 {
		t.Errorf("%d bytes after a quarter of the scans, %d at the end", start, end)
	}
}

// changeSet makes a new set for a player and puts it on, as the page does.
func (s *stand) changeSet(i int, player string) {
	s.t.Helper()
	var fresh desk.SetAdded
	must(s.t, s.station.book.use("", func(d *desk.Desk) error {
		runners, _, err := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua R", Size: 280, Count: 2})
		if err != nil {
			return err
		}
		fresh, _, err = d.AddSet(player, "", runners[0].String(), runners[1].String())
		return err
	}))
	shown := s.say("show "+numeral(i), fresh.Number.String(), talk{})
	if said := s.say("change "+numeral(i), "c low", shown.Talk); said.Tone != toneDone {
		s.t.Fatalf("change of %s at scan %d: %s", player, i, said.Told)
	}
}

func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// TestTwoWindowsAtOnce sends scans from two windows at the same time.
func TestTwoWindowsAtOnce(t *testing.T) {
	s := newStand(t)
	before := s.events()
	const each = 100
	ended := make(chan bool)
	for window, player := range []string{"17", "23"} {
		go func() {
			defer func() { ended <- true }()
			for i := range each {
				said := s.say(player+" "+numeral(i), "b"+numeral(3+window), talk{State: jig.State{About: s.about(player)}})
				if said.Tone == toneAsked {
					said = s.say(player+" yes "+numeral(i), "y", said.Talk)
				}
				if said.Tone != toneDone {
					t.Errorf("window %d: %s", window, said.Told)
				}
			}
		}()
	}
	<-ended
	<-ended
	if got := s.events() - before; got != 2*each {
		t.Errorf("%d entries, want %d", got, 2*each)
	}
}

// about is what a window shows after a player was scanned.
func (s *stand) about(player string) jig.About { return s.say("", player, talk{}).Talk.About }

var benchBook = flag.String("book", "", "the book that the benchmark works on: steeltally demo --dir D --events 1000000 makes one")

// BenchmarkScanToScreen is a scan through the page's endpoint, a grind recorded and the
// screen drawn. The target on a book of a million events is 50 ms in 99 of 100.
func BenchmarkScanToScreen(b *testing.B) {
	if *benchBook == "" {
		b.Skip("name a book with -book")
	}
	s := &stand{t: b, now: time.Now()}
	s.options = desk.Options{Book: *benchBook, Now: func() time.Time { return s.now }}
	s.start()
	var players []string
	d, err := desk.OpenToRead(s.options)
	must(b, err)
	lines, err := d.Players()
	must(b, err)
	must(b, d.Close())
	for _, p := range lines {
		if p.On != "" {
			players = append(players, p.Number.String())
		}
	}
	var took []time.Duration
	for b.Loop() {
		s.now = s.now.Add(2 * time.Second)
		start := time.Now()
		if said := s.say("", players[len(took)%len(players)], talk{State: jig.State{Grinding: true}}); said.Tone == toneWrong {
			b.Fatal(said.Told)
		}
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "p50-ms")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "p99-ms")
	s.benchPaint(b)
}

// benchPaint is the first paint: the page and the screen of the jig, without a plot.
func (s *stand) benchPaint(b *testing.B) {
	start := time.Now()
	s.part(talk{Screen: atJig})
	b.ReportMetric(float64(time.Since(start).Microseconds())/1000, "paint-ms")
}
