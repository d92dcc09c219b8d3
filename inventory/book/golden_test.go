package book_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// freeze makes the golden book of this format anew. Once one is released it is never
// made again: a new format gets another folder beside it.
var freeze = flag.Bool("freeze", false, "make the golden book of this format")

const (
	goldenBooks = "../../testdata/books"
	goldenName  = "format-1"
	exportName  = "export.jsonl"
)

const kindsOfFormat1 = `club player specs model stockin pair set put rivet in out grind measure damage
	inspect refusal session correction printed reserved found from-tag container tried skated pitch rules
	custody answer scrap emergency emergency-done emergency-closed trip roster packed loaded kit callup`

// Every book that a released version has written stays readable: it verifies, its
// events are exported byte for byte, its states are what the events say, and it goes on.
func TestOldBooksStayReadable(t *testing.T) {
	if *freeze {
		makeGolden(t, filepath.Join(goldenBooks, goldenName))
	}
	goldens, err := filepath.Glob(filepath.Join(goldenBooks, "format-*"))
	if err != nil {
		t.Fatal(err)
	}
	if len(goldens) == 0 {
		t.Fatal("there is no golden book")
	}
	for _, golden := range goldens {
		t.Run(filepath.Base(golden), func(t *testing.T) { checkGolden(t, golden) })
	}
}

func checkGolden(t *testing.T, golden string) {
	dir := filesOf(t, golden).write(t)
	want, err := os.ReadFile(filepath.Join(golden, exportName))
	if err != nil || len(want) == 0 {
		t.Fatal(len(want), err)
	}
	if report, err := book.VerifyHere(dir, "the test"); err != nil || !report.OK {
		t.Errorf("%+v, %v", report, err)
	}
	if got := exported(t, dir); !bytes.Equal(got, want) {
		t.Errorf("%d bytes are exported, want %d", len(got), len(want))
	}
	booktest.Check(t, dir)
	b := booktest.Open(t, dir)
	last := booktest.Record(t, b, booktest.Opening()...)[0]
	if latest, err := b.Latest(1); err != nil || len(latest) != 1 || latest[0].Key != last.Key {
		t.Errorf("the next event does not come last: %v, %v", latest, err)
	}
	if into, report := rebuilt(t, filesOf(t, golden).write(t)); !bytes.Equal(exported(t, into), want) || len(report.Lost) > 0 {
		t.Errorf("rebuilt: %+v", report)
	}
}

// makeGolden writes a book with something of everything: every kind of event with all
// of its members, kinds and members that no version knows, corrections of corrections,
// tickets, vague times, actions of several events, two writers, states that are
// stored and events that are recent.
func makeGolden(t *testing.T, golden string) {
	t.Helper()
	dir := booktest.Make(t)
	drive(t, dir, 61, 160)
	other := filesOf(t, dir).write(t)
	went(t, other, booktest.NewDrawer(62), 20)
	b := booktest.Open(t, dir)
	for i, body := range everyBody(t) {
		stamp := booktest.Stamp()
		stamp.Ticket = fmt.Sprint("golden ", i)
		happened, err := inventory.ParseWhen([]string{"2025-11", "unknown", "2025/26", "2025-11-04T09:00:00Z"}[i%4], booktest.Noted().Location())
		if err != nil {
			t.Fatal(err)
		}
		drafts := []inventory.Draft{{Happened: happened, Body: body}, {Happened: happened, Body: body}}
		if _, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return drafts[:1+i%2], nil }); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := b.Merge(book.Other{From: other, Program: "the test"}); err != nil {
		t.Fatal(err)
	}
	booktest.Record(t, b, booktest.NewDrawer(63).Action()...)
	lines := exported2(t, b)
	if err := errors.Join(b.Close(), os.MkdirAll(golden, 0o755)); err != nil {
		t.Fatal(err)
	}
	f := filesOf(t, dir)
	for name, data := range map[string][]byte{"journal.jsonl": f.journal, "book.db": f.db[:book.UsedBytes(f.db)], exportName: lines} {
		if err := os.WriteFile(filepath.Join(golden, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// everyBody gives a body of every kind that this version knows, its members filled, and
// two that it does not know.
func everyBody(t *testing.T) []inventory.Body {
	t.Helper()
	bodies := []inventory.Body{
		&inventory.Foreign{Name: "engrave", Raw: json.RawMessage(`{"piece":"1000042744","depth_mm":0.05,"words":["å","<b>"]}`)},
		&inventory.Foreign{Name: "grind", Raw: json.RawMessage(`{"work":["of","another","form"]}`)},
	}
	for _, kind := range strings.Fields(kindsOfFormat1) {
		text := fmt.Sprintf(`{"writer":"0123456789abcdef","seq":1,"logical":1,"happened":"unknown","kind":%q,"body":{}}`, kind)
		var e inventory.Event
		if err := e.UnmarshalJSON([]byte(text)); err != nil {
			t.Fatal(err)
		}
		if _, foreign := e.Body.(*inventory.Foreign); foreign || !strings.HasPrefix(fmt.Sprintf("%T", e.Body), "*inventory.") {
			t.Errorf("the kind %s is listed and not known", kind)
		}
		bodies = append(bodies, booktest.Filled(t, e.Body))
	}
	return bodies
}
