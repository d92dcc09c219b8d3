package book_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
	"steeltally/inventory/inventorytest"
)

// sealed is a line of a journal with any content and the checksum that belongs to it.
func sealed(writer string, sequence, logical uint64, rest string) string {
	text := fmt.Sprintf(`{"writer":%q,"seq":%d,"logical":%d,%s`, writer, sequence, logical, rest)
	return fmt.Sprintf(`%s,"crc32c":"%08x"}`, text, crc32.Checksum([]byte(text), crc32.MakeTable(crc32.Castagnoli)))
}

// said is what a line says besides its place.
func said(happened, kind, body string) string {
	return fmt.Sprintf(`"happened":%q,"noted":"2025-11-05T07:00:00Z","kind":%q,"body":%s`, happened, kind, body)
}

// number is the first number of a kind at station 1.
func number(t *testing.T, kind inventory.Kind) string {
	t.Helper()
	n, err := inventory.NewNumber(kind, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	return n.String()
}

const crafted = "00000000000000c3" // a writer that nobody is

// withLines is a file of a book's lines with others after them.
func withLines(t *testing.T, b *book.Book, lines ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "crafted.jsonl")
	text := append(exported2(t, b), strings.Join(lines, "\n")+"\n"...)
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Each of these lines has a valid checksum, and would have ruined the book: nothing more
// could be recorded, states ran together, or figures ran over.
func TestCraftedLinesAreSetAside(t *testing.T) {
	runner, player := number(t, inventory.KindRunner), number(t, inventory.KindPlayer)
	grind := `{"work":"grind","left":{"runner":"` + runner + `","passes":%s}}`
	const when = "2025-11-05T07:00:00Z"
	for name, line := range map[string]string{
		"a logical time far ahead":   sealed(crafted, 1, 1<<62, said(when, "session", `{"month":"schedule/2025-11"}`)),
		"a sequence at its end":      sealed(crafted, 1<<64-1, 50, said(when, "session", `{"month":"schedule/2025-11"}`)),
		"a part of another's name":   sealed(crafted, 1, 50, said(when, "model", `{"name":"Model R\u0000","piece":"runner"}`)),
		"the other part":             sealed(crafted, 1, 50, said(when, "stockin", `{"pieces":[],"model":"Model R\u0001abcdefghijklmnop","size_mm":280}`)),
		"a month that is a piece":    sealed(crafted, 1, 50, said(when, "session", `{"month":"`+runner+`"}`)),
		"a height beyond all":        sealed(crafted, 1, 50, said(when, "measure", `{"reference":"loose","heights":[{"runner":"`+runner+`","middle_mm":1e308}]}`)),
		"a height below nothing":     sealed(crafted, 1, 50, said(when, "measure", `{"reference":"loose","heights":[{"runner":"`+runner+`","middle_mm":-1e308}]}`)),
		"passes below nothing":       sealed(crafted, 1, 50, said(when, "grind", fmt.Sprintf(grind, "-5"))),
		"passes beyond all":          sealed(crafted, 1, 50, said(when, "grind", fmt.Sprintf(grind, "4611686018427387904"))),
		"numbers without end":        sealed(crafted, 1, 50, said(when, "reserved", `{"piece":"runner","station":1,"first":1,"count":4611686018427387904}`)),
		"a year that never comes":    sealed(crafted, 1, 50, said("9999-01-01T00:00:00Z", "session", `{"month":"schedule/2025-11"}`)),
		"a name that steers screens": sealed(crafted, 1, 50, said(when, "player", `{"player":"`+player+`","name":"\u001b[2JOdd"}`)),
		"an action without its rest": sealed(crafted, 1, 50, `"happened":"2025-11-05T07:00:00Z","noted":"2025-11-05T07:00:00Z","more":-4,"kind":"session","body":{"month":"schedule/2025-11"}`),
		"a key without end":          sealed(crafted, 1, 50, `"happened":"2025-11-05T07:00:00Z","noted":"2025-11-05T07:00:00Z","ticket":"`+strings.Repeat("k", 400)+`","kind":"session","body":{"month":"schedule/2025-11"}`),
	} {
		t.Run(name, func(t *testing.T) {
			dir := booktest.Make(t)
			drive(t, dir, 51, 40)
			b := booktest.Open(t, dir)
			before := stateIn(t, b)
			checkKeptOut(t, b, line)
			if after := stateIn(t, b); after != before {
				t.Error("what was set aside changed the book")
			}
			booktest.Record(t, b, booktest.NewDrawer(52).Action()...)
		})
	}
}

// checkKeptOut tells whether a line comes in neither by a merge nor by a rebuild.
func checkKeptOut(t *testing.T, b *book.Book, line string) {
	t.Helper()
	file := withLines(t, b, line)
	if sum, err := b.Merge(book.Other{From: file, Program: "the test"}); err == nil && (sum.Added > 0 || sum.SetAside != 1) {
		t.Errorf("merged: %+v", sum)
	} else if aside, err2 := b.SetAside(); err2 != nil || err == nil && (len(aside) != 1 || !strings.Contains(line, string(aside[0].Event)) || aside[0].Reason == "") {
		t.Errorf("set aside: %+v, %v", aside, err2)
	}
	into := filepath.Join(t.TempDir(), "rebuilt")
	if report, err := book.Rebuild(into, file, "the test"); err != nil || report.SetAside+report.BadLines != 1 || len(report.Lost) > 0 {
		t.Errorf("rebuilt: %+v, %v", report, err)
		return
	}
	if !bytes.Equal(exported(t, into), exported2(t, b)) {
		t.Error("a rebuilt book has something else than the lines before")
	}
}

// stateIn is stateOf for a book that is open.
func stateIn(t *testing.T, b *book.Book) string {
	t.Helper()
	var text strings.Builder
	err := b.Read(func(v inventory.View) error {
		for kind := inventory.KindRunner; kind <= inventory.KindPlayer; kind++ {
			v.Each(kind, func(n inventory.Number, state inventory.Entity) bool {
				line, _ := json.Marshal(state)
				fmt.Fprintf(&text, "%s %s\n", n.Short(), line)
				return true
			})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return text.String()
}

// Corrections that all void each other, and a long chain of them, take no longer than
// reading them: the plain way would take 2⁴⁴ looks.
func TestCorrectionsOfCorrectionsComeToAnEnd(t *testing.T) {
	voiding := func(from, until int) string {
		var keys []string
		for i := from; i < until; i++ {
			keys = append(keys, fmt.Sprintf(`"%d@%s"`, i, crafted))
		}
		return said("2025-11-05T07:00:00Z", "correction", `{"words":"round and round","about":["`+number(t, inventory.KindPlayer)+`"],"voids":[`+strings.Join(keys, ",")+`]}`)
	}
	for name, corrections := range map[string]struct {
		first  func(i int) int
		counts []int
	}{
		"each voids all before": {func(int) int { return 1 }, []int{45, times(1000)}},
		"each voids the last":   {func(i int) int { return i - 1 }, []int{45, times(20_000)}},
	} {
		for _, count := range corrections.counts {
			b := booktest.New(t)
			var lines []string
			for i := 1; i <= count; i++ {
				lines = append(lines, sealed(crafted, uint64(i), uint64(1+i), voiding(max(corrections.first(i), 1), i)))
			}
			if sum, err := b.Merge(book.Other{From: withLines(t, b, lines...), Program: "the test"}); err != nil || sum.Added != count {
				t.Fatalf("%s: %+v, %v", name, sum, err)
			}
			events := booktest.Record(t, b, inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: &inventory.Correction{
				Words: "none of it", Voids: []inventory.Key{{Writer: crafted, Sequence: uint64(count)}},
			}})
			entry, err := b.Find(inventory.Key{Writer: crafted, Sequence: uint64(count)})
			if err != nil || entry.VoidedBy == nil || *entry.VoidedBy != events[0].Key {
				t.Errorf("%s: the last is voided by %v, %v", name, entry.VoidedBy, err)
			}
		}
	}
}

// Whatever valid lines a crafted file brings: it is refused, or they are set aside or
// taken. The book verifies and agrees with the naive model, other pieces stay as they
// were, and everything can be recorded and taken back.
func TestCraftedEventsRuinNothing(t *testing.T) {
	t.Parallel()
	const inAFile = 200
	c := crafter{inventorytest.NewChance(t, "..", 61)}
	counts := map[string]int{}
	for range times(20_000) / inAFile {
		dir := booktest.Make(t)
		drive(t, dir, c.Uint64(), 20)
		b := booktest.Open(t, dir)
		own, err := inventory.NewNumber(inventory.KindRunner, 1, 500) // that no crafted line names
		if err != nil {
			t.Fatal(err)
		}
		booktest.Record(t, b, inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: &inventory.StockedIn{Pieces: []inventory.Number{own}, Model: "Skua R", Size: 280}})
		before := pieceIn(t, b, own)
		sum := c.attack(t, b, inAFile)
		counts["taken"] += sum.Added
		counts["set aside"] += sum.SetAside
		if after := pieceIn(t, b, own); after != before {
			t.Fatalf("a piece that nothing names was %s and is %s", before, after)
		}
		c.takeBack(t, b)
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		booktest.Check(t, dir)
		if t.Failed() {
			return
		}
	}
	if counts["taken"] < times(1000) || counts["set aside"] < times(1000) {
		t.Errorf("of the crafted lines %v: too few of a sort to say anything", counts)
	}
	t.Logf("of %d crafted lines: %v", times(20_000), counts)
}

func pieceIn(t *testing.T, b *book.Book, n inventory.Number) (text string) {
	t.Helper()
	err := b.Read(func(v inventory.View) error {
		line, err := json.Marshal(v.Entity(inventory.RefOf(n)))
		text = string(line)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// crafter makes lines that no program wrote.
type crafter struct{ inventorytest.Chance }

// attack merges crafted lines into a book: those whose sequences have no holes from a
// file, and the others by way of a book that was rebuilt from them.
func (c crafter) attack(t *testing.T, b *book.Book, count int) book.Merged {
	t.Helper()
	lines := make([]string, count)
	sequence, logical := uint64(0), uint64(40)
	wild := c.IntN(2) == 0
	for i := range lines {
		sequence, logical = sequence+1, logical+c.Uint64N(3)
		writer, s, l := crafted, sequence, logical+1
		if wild && c.IntN(4) == 0 {
			writer, s, l = c.writer(b), c.extreme(s), c.extreme(l)
		}
		logical++
		lines[i] = sealed(writer, s, l, c.rest(t))
	}
	from := withLines(t, b, lines...)
	if wild {
		into := filepath.Join(t.TempDir(), "rebuilt")
		report, err := book.Rebuild(into, from, "the test")
		if err != nil {
			t.Fatal(err)
		}
		sum, err := b.Merge(book.Other{From: into, Program: "the test"})
		var otherClub *book.OtherClubError
		if err != nil && !errors.As(err, &otherClub) { // a crafted line can be in the place of the first
			t.Fatal(err)
		}
		sum.SetAside += report.SetAside
		return sum
	}
	sum, err := b.Merge(book.Other{From: from, Program: "the test"})
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

func (c crafter) writer(b *book.Book) string {
	counts, _ := b.Counts()
	return []string{string(counts.Writer), crafted, fmt.Sprintf("%016x", c.Uint64())}[c.IntN(3)]
}

func (c crafter) extreme(n uint64) uint64 {
	return []uint64{n, n + 1, 1, 1 << 19, 1 << 21, 1 << 40, 1<<62 - 1, 1 << 62, 1<<62 + 1, 1<<63 - 1, 1<<64 - 1}[c.IntN(11)]
}

// rest is a random body, changed in one place or left as it is, with what goes around it.
func (c crafter) rest(t *testing.T) string {
	body := c.Body(c.Kinds[c.IntN(len(c.Kinds))])
	text, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	if c.IntN(2) == 0 {
		var value any
		decoder := json.NewDecoder(bytes.NewReader(text))
		decoder.UseNumber()
		if err := decoder.Decode(&value); err != nil {
			t.Fatal(err)
		}
		text, err = json.Marshal(c.changed(value))
		if err != nil {
			t.Fatal(err)
		}
	}
	happened := []string{"2025-11-05T07:00:00Z", "unknown", "0001-01-01T00:00:00Z/9999-12-31T00:00:00Z", "2025-11-01T00:00:00Z/2025-12-01T00:00:00Z"}[c.IntN(4)]
	more := ""
	if c.IntN(4) == 0 {
		more = fmt.Sprintf(`"more":%d,`, []int64{-1, 1, 2, 1 << 40}[c.IntN(4)])
	}
	return fmt.Sprintf(`"happened":%q,"noted":"2025-11-05T07:00:00Z",%s"kind":%q,"body":%s`, happened, more, body.Kind(), text)
}

// changed puts something extreme into the place of one value, or leaves it.
func (c crafter) changed(value any) any {
	switch v := value.(type) {
	case map[string]any:
		for name := range v {
			if c.IntN(3) == 0 {
				v[name] = c.changed(v[name])
			}
		}
		return v
	case []any:
		for i := range v {
			v[i] = c.changed(v[i])
		}
		return v
	case json.Number:
		return json.RawMessage([]string{"-1", "1e308", "-1e308", "4611686018427387904", "1e-300", "0", "999999"}[c.IntN(7)])
	case string:
		return []string{v + "\x00", v + "\x01" + strings.Repeat("z", 16), "\x1b[31m" + v, strings.Repeat(v+"w", 3000), "1100000127", "", "9@" + crafted}[c.IntN(7)]
	}
	return value
}

// takeBack voids all that the crafted writers brought, and records on.
func (c crafter) takeBack(t *testing.T, b *book.Book) {
	t.Helper()
	counts, err := b.Counts()
	if err != nil {
		t.Fatal(err)
	}
	undo := &inventory.Correction{Words: "nobody wrote this"}
	err = b.All(func(e inventory.Event, _ []byte) error {
		if e.Writer != counts.Writer {
			undo.Voids = append(undo.Voids, e.Key)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	events := booktest.Record(t, b, inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: undo})
	for _, key := range undo.Voids {
		if entry, err := b.Find(key); err != nil || entry.VoidedBy == nil {
			t.Errorf("%v can't be taken back by %v: %v", key, events[0].Key, err)
		}
	}
	drawer := booktest.NewDrawer(rand.Uint64())
	for range 5 {
		booktest.Record(t, b, drawer.Action()...)
	}
}
