package demo

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// sameWriter gives every book the same writer's id.
func sameWriter() *bytes.Reader { return bytes.NewReader(bytes.Repeat([]byte{0x5a}, 256)) }

// written writes a book and gives its summary and its export.
func written(t *testing.T, o Options) (dir string, s Summary, export []byte) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "book")
	s, err := Write(t.Context(), dir, o)
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := errors.Join(b.Export(&out), b.Close()); err != nil {
		t.Fatal(err)
	}
	return dir, s, out.Bytes()
}

// small is a book of some weeks.
func small(seed uint64) Options {
	return Options{Seed: seed, End: endDay(), Events: 5000, Random: sameWriter()}
}

func TestSameSeedSameBook(t *testing.T) {
	dir, s, first := written(t, small(3))
	_, _, again := written(t, small(3))
	if !bytes.Equal(first, again) {
		t.Error("one seed and end day gave two books")
	}
	later := small(3)
	later.End = later.End.Add(9 * time.Hour)
	if _, _, sameDay := written(t, later); !bytes.Equal(first, sameDay) {
		t.Error("the hour of the end day changed the book")
	}
	if _, _, other := written(t, small(4)); bytes.Equal(first, other) {
		t.Error("two seeds gave one book")
	}
	if lines := bytes.Count(first, []byte("\n")); lines != s.Events || lines < 3500 || lines > 6500 {
		t.Errorf("%d lines, %d events said; about 5,000 asked for", lines, s.Events)
	}
	booktest.Check(t, dir)
}

func TestWholeBookHoldsAgainstTheNaiveModel(t *testing.T) {
	if testing.Short() {
		t.Skip("plays one and a half seasons")
	}
	o := Options{Seed: 1, End: endDay(), Random: sameWriter()}
	dir, s, _ := written(t, o)
	booktest.Check(t, dir)
	c, m := played(t, o)
	if len(m.events) != s.Events || c.entered != s.Events {
		t.Errorf("%d events in the book, %d in memory", s.Events, len(m.events))
	}
	runners, removed := countRunners(m, c.end)
	if runners != s.Runners || removed != s.Removed {
		t.Errorf("the book counts %d runners, %d removed; memory %d and %d", s.Runners, s.Removed, runners, removed)
	}
}

func countRunners(m *memory, at time.Time) (runners, removed int) {
	m.Each(inventory.KindRunner, func(_ inventory.Number, e inventory.Entity) bool {
		if r := e.(*inventory.Runner); r.Entered() {
			runners++
			if r.StateAt(at) == inventory.Removed {
				removed++
			}
		}
		return true
	})
	return runners, removed
}

func TestNothingIsLeftAfterAFailure(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "book")
	ctx, cancel := context.WithCancel(t.Context())
	o := small(1)
	o.Progress = func(done, of int) {
		if done > 3000 {
			cancel()
		}
	}
	if _, err := Write(ctx, dir, o); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("after a failure there is something at the place of the book: %v", err)
	}
}

func TestNothingIsWrittenOver(t *testing.T) {
	dir := t.TempDir()
	kept := filepath.Join(dir, "letter.txt")
	if err := os.WriteFile(kept, []byte("keep"), 0o600); err != nil {
		t.Fatal(err)
	}
	var occupied *book.OccupiedError
	if _, err := Write(t.Context(), dir, small(1)); !errors.As(err, &occupied) {
		t.Errorf("a folder with something in it: %v", err)
	}
	if text, err := os.ReadFile(kept); err != nil || string(text) != "keep" {
		t.Errorf("what was there: %q, %v", text, err)
	}
	if _, err := Write(t.Context(), filepath.Join(dir, "book"), Options{}); !errors.Is(err, errNoEnd) {
		t.Errorf("no end day: %v", err)
	}
}

func TestProgressGrows(t *testing.T) {
	var seen []int
	o := small(2)
	o.Progress = func(done, of int) {
		if done > of || of < 4999 {
			t.Errorf("%d of %d", done, of)
		}
		seen = append(seen, done)
	}
	written(t, o)
	if len(seen) < 20 {
		t.Errorf("progress was told %d times", len(seen))
	}
	for i := 1; i < len(seen); i++ {
		if seen[i] < seen[i-1] {
			t.Errorf("progress went back from %d to %d", seen[i-1], seen[i])
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	for b.Loop() {
		dir := filepath.Join(b.TempDir(), "book")
		s, err := Write(b.Context(), dir, Options{Seed: 1, End: endDay()})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(s.Events), "events")
	}
}
