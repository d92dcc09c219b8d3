package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/demo"
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// full makes the long tests as long as they are meant to be.
var full = flag.Bool("full", false, "run the long tests at full length")

// smallClub makes the smallest book that the demonstration knows, about 9,000 entries,
// and opens it.
func smallClub(t testing.TB) (*desk.Desk, string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "book")
	if _, err := demo.Write(context.Background(), dir, demo.Options{Seed: 3, End: speedNow, Events: 1}); err != nil {
		t.Fatal(err)
	}
	now := speedNow
	d, err := desk.Open(desk.Options{Book: dir, Now: func() time.Time {
		now = now.Add(time.Minute)
		return now
	}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	return d, dir
}

// Whatever comes out of a scanner that is not a tag of ours, or one misread, is refused
// with words and records nothing: a million scans with -full, else a tenth.
func TestNonsenseRecordsNothing(t *testing.T) {
	scans := 100_000
	if *full {
		scans = 1_000_000
	}
	d, dir := smallClub(t)
	before := filesOfBook(t, dir)
	n := &nonsense{random: rand.New(rand.NewPCG(7, 11))}
	sorts := n.sorts()
	for i := range scans {
		sort := sorts[i%len(sorts)]
		text := sort.make()
		_, err := d.Card(text)
		if !refused(err) {
			t.Fatalf("%s %q is shown: %v", sort.name, text, err)
		}
		if _, err := d.Grind([]string{text}, nil, "", deeds.Grind{}); !refused(err) {
			t.Fatalf("%s %q is ground: %v", sort.name, text, err)
		}
	}
	if after := filesOfBook(t, dir); !bytes.Equal(before, after) {
		t.Errorf("the journal had %d bytes and has %d", len(before), len(after))
	}
	if _, err := d.Grind([]string{firstWith(t, d)}, nil, "", deeds.Grind{}); err != nil || bytes.Equal(before, filesOfBook(t, dir)) {
		t.Errorf("and a grind that is none of these records nothing either: %v", err)
	}
}

func filesOfBook(t *testing.T, dir string) []byte {
	t.Helper()
	journal, err := os.ReadFile(filepath.Join(dir, "journal.jsonl"))
	if err != nil || len(journal) == 0 {
		t.Fatal(len(journal), err)
	}
	return journal
}

// refused tells whether an error is one that a person at the jig is told, not a failure.
func refused(err error) bool {
	var refusal *inventory.Refusal
	var bad *inventory.BadValue
	var number *inventory.NotANumber
	return errors.As(err, &refusal) || errors.As(err, &bad) || errors.As(err, &number)
}

// firstWith is a player who has steel on.
func firstWith(t testing.TB, d *desk.Desk) string {
	t.Helper()
	players, err := d.Players()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range players {
		if p.On != "" {
			return p.Number.String()
		}
	}
	t.Fatal("nobody has steel on")
	return ""
}

// nonsense makes scans that are none of ours.
type nonsense struct{ random *rand.Rand }

// sortOfScan is one way in which a scan is wrong.
type sortOfScan struct {
	name string
	make func() string
}

func (n *nonsense) sorts() []sortOfScan {
	return []sortOfScan{
		{"random bytes", n.bytes},
		{"a wrong digit", func() string { return n.wrongDigit(n.number().String()) }},
		{"swapped digits", func() string { return n.swapped(n.number().String()) }},
		{"a wrong digit in a short number", func() string { return n.wrongDigit(n.number().Short()) }},
		{"a short scan of a number", func() string { return n.number().String()[:3+n.random.IntN(7)] }},
		{"two scans run together", func() string { return n.number().String() + n.number().String() }},
		{"an EAN-13", func() string { return mod10(n.digits(12)) }},
		{"an EAN-8", func() string { return mod10(n.digits(7)) }},
		{"an SSCC", func() string { return "00" + mod10(n.digits(17)) }},
		{"a GS1 element string", func() string { return "]C101" + mod10(n.digits(13)) + "10LOT" + n.digits(6) }},
		{"an address", func() string {
			return "https://skarn-harbour.example/" + n.digits(20+n.random.IntN(2000)) + "?n=" + n.number().String()
		}},
		{"a truncated tally", func() string { text := n.tally(); return text[:2+n.random.IntN(len(text)-2)] }},
		{"a tally without its beginning", func() string { text := n.tally(); return text[1+n.random.IntN(len(text)-3):] }},
		{"a tally with a wrong character", func() string { return n.wrongDigit(n.tally()) }},
		{"a tally with two swapped", func() string { return n.swapped(n.tally()) }},
		{"a piece that is not in the book", n.stranger},
	}
}

// bytes are three bytes and more: one or two letters can be the beginning of a name.
func (n *nonsense) bytes() string {
	text := make([]byte, 3+n.random.IntN(120))
	for i := range text {
		text[i] = byte(n.random.Uint32())
	}
	return string(text)
}

// number is one that a piece of the book has or might have.
func (n *nonsense) number() inventory.Number {
	kinds := []inventory.Kind{inventory.KindRunner, inventory.KindHolder, inventory.KindPair, inventory.KindSet, inventory.KindPlayer}
	number, err := inventory.NewNumber(kinds[n.random.IntN(len(kinds))], 1, 1+n.random.IntN(400))
	if err != nil {
		panic(err) // kind, station and running number are in range
	}
	return number
}

// stranger is a good number of another station.
func (n *nonsense) stranger() string {
	number, err := inventory.NewNumber(n.number().Kind(), 2+n.random.IntN(8), 1+n.random.IntN(999_999))
	if err != nil {
		panic(err) // in range
	}
	return number.String()
}

func (n *nonsense) digits(count int) string {
	text := make([]byte, count)
	for i := range text {
		text[i] = '0' + byte(n.random.IntN(10))
	}
	return string(text)
}

// wrongDigit puts another digit in the place of one.
func (n *nonsense) wrongDigit(text string) string {
	changed := []byte(text)
	for {
		at := n.random.IntN(len(changed))
		if changed[at] < '0' || changed[at] > '9' {
			continue
		}
		changed[at] = '0' + (changed[at]-'0'+1+byte(n.random.IntN(9)))%10
		return string(changed)
	}
}

// swapped swaps two neighbours that differ.
func (n *nonsense) swapped(text string) string {
	changed := []byte(text)
	for {
		at := n.random.IntN(len(changed) - 1)
		if changed[at] != changed[at+1] {
			changed[at], changed[at+1] = changed[at+1], changed[at]
			return string(changed)
		}
	}
}

// tally is the text of a tag that a runner of the book might have.
func (n *nonsense) tally() string {
	runner, err := inventory.NewNumber(inventory.KindRunner, 1, 1+n.random.IntN(400))
	if err != nil {
		panic(err) // in range
	}
	return inventory.Tally{
		Piece: runner, Generation: 1, Sweater: 1 + n.random.IntN(98), Side: inventory.Left,
		In: "251004", Out: fmt.Sprintf("2511%02d", 1+n.random.IntN(30)), Grinds: n.random.IntN(90), Passes: n.random.IntN(500), Reason: "LOW",
	}.String()
}

// mod10 ends a text of digits in the check digit of the GS1 General Specifications,
// section 7.9: from the right, the weights are 3 and 1 in turns.
func mod10(digits string) string {
	sum := 0
	for i := range len(digits) {
		weight := 1
		if (len(digits)-i)%2 == 1 {
			weight = 3
		}
		sum += weight * int(digits[i]-'0')
	}
	return digits + string(rune('0'+(10-sum%10)%10))
}
