package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// asker puts command lines to a book and reads what they come to.
type asker struct {
	t    testing.TB
	book string
	now  time.Time

	listed int64 // up to where of the journal
	list   map[inventory.Kind][]inventory.Number
}

// run gives a command line with --json and reads the object that it prints.
func (a *asker) run(line ...string) (code int, object map[string]any) {
	a.t.Helper()
	var said, noted bytes.Buffer
	world := World{
		Stdin: strings.NewReader(""), Stdout: &said, Stderr: &noted, Now: func() time.Time { return a.now },
		Getenv: func(name string) string { return map[string]string{"STEELTALLY_BOOK": a.book}[name] },
	}
	code = Main(context.Background(), world, append(line, "--json"))
	if err := json.Unmarshal(said.Bytes(), &object); err != nil || code == exitFailed || code == exitDamaged {
		a.t.Fatalf("%q: exit code %d, %v: %s%s", line, code, err, said.String(), noted.String())
	}
	return code, object
}

// must gives a command line that has to be done.
func (a *asker) must(line ...string) map[string]any {
	a.t.Helper()
	code, object := a.run(line...)
	if code != exitDone {
		a.t.Fatalf("%q: exit code %d: %v", line, code, object)
	}
	return object
}

// stream gives random deeds to a small club's book: what a season at the jig brings, in an
// order that nobody plans.
type stream struct {
	asker
	*rand.Rand
	sweaters []string
}

const steelNew = 11.9

// newStream makes the club of three: each with two pairs with holders, a set on either and
// one ready, and steel and holders on the shelf.
func newStream(t testing.TB, seed uint64) *stream {
	s := &stream{
		asker: asker{t: t, book: filepath.Join(t.TempDir(), "book"), now: time.Date(2025, 10, 1, 7, 0, 0, 0, time.UTC)},
		Rand:  rand.New(rand.NewPCG(seed, 37)), sweaters: []string{"8", "17", "31"},
	}
	for _, line := range []string{
		"init --club Terns --station 1 --zone Europe/Oslo", "model add H --piece holder --family Skua --attachment bolt",
		"model add R --piece runner --family Skua --attachment bolt --height 11.9", "stockin trunk --name T1", "stockin bin --name B1",
		"trip add Point --from 2025-10-20 --to 2025-10-27",
	} {
		s.must(strings.Fields(line)...)
	}
	for i, sweater := range s.sweaters {
		s.equip(sweater, inventory.Positions()[i%len(inventory.Positions())])
	}
	s.must(strings.Fields("stockin runner --model R --size 280 --count 4")...)
	for _, side := range inventory.Sides() {
		s.must("stockin", "holder", "--model", "H", "--size", "280", "--count", "2", "--side", string(side))
	}
	steel, set := s.numbers(inventory.KindRunner), s.numbers(inventory.KindSet)
	s.must("trip", "pack", "Point", steel[len(steel)-1].String(), "--trunk", "T1")
	s.must("put", set[len(set)-1].String(), "--place", "shelf")
	s.must("specs", s.sweaters[2], "--change-height", "11.8mm") // his is due
	s.must("emergency", s.sweaters[0], "--side", "left")
	folded := filepath.Join(t.TempDir(), "book") // what is stored folded need not be folded by each command
	s.must("rebuild", "--into", folded)
	s.book = folded
	return s
}

// equip adds a player with two pairs and three sets, two of them on.
func (s *stream) equip(sweater, position string) {
	s.must("player", "add", "--sweater", sweater, "--name", "Player "+sweater, "--position", position)
	s.must("specs", sweater, "--passes", "5", "--change-height", "8.4mm", "--hollow", "1/2in")
	for _, role := range []string{"first", "spare"} {
		pair := s.must("pair", "add", sweater, "--role", role)["number"].(string)
		for _, side := range inventory.Sides() {
			holder := s.must("stockin", "holder", "--model", "H", "--size", "280", "--side", string(side))["numbers"].([]any)[0].(string)
			s.must("rivet", "on", holder, "--pair", pair)
		}
	}
	for range 3 {
		steel := s.must("stockin", "runner", "--model", "R", "--size", "280", "--count", "2")["numbers"].([]any)
		s.must("set", "add", sweater, "--left", steel[0].(string), "--right", steel[1].(string))
	}
	s.must("in", sweater, "A", "--pair", "first")
	s.must("in", sweater, "B", "--pair", "spare")
	for i := range 3 {
		s.now = s.now.Add(12 * time.Hour)
		for _, pair := range []string{"first", "spare"} {
			height := fmt.Sprintf("%.2f", steelNew-float64(i)*0.1-0.1*s.Float64())
			s.must("grind", sweater, "--pair", pair)
			s.must("measure", sweater, "--pair", pair, "--loose", "--left", height, "--right", height, "--as-read")
		}
	}
}

// step lets time go by and does something; what the record does not allow is left.
func (s *stream) step() (line []string, object map[string]any, done bool) {
	s.t.Helper()
	hours := []int{0, 1, 3, 12, 24}[s.IntN(5)]
	if s.IntN(12) == 0 {
		hours = 7 * 24
	}
	s.now = s.now.Add(time.Duration(hours)*time.Hour + time.Duration(1+s.IntN(50))*time.Minute)
	line = s.deed()
	if s.IntN(10) == 0 {
		line = append(line, "--at", s.now.Add(-time.Duration(s.IntN(200))*time.Hour).Format("2006-01-02T15:04"))
	}
	code, object := s.run(line...)
	return line, object, code == exitDone
}

// pick chooses some players, and some pieces of each kind.
func (a *asker) pick(r *rand.Rand, count int) (players, pieces []inventory.Number) {
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder, inventory.KindSet, inventory.KindPair, inventory.KindPlayer} {
		all := a.numbers(kind)
		for _, i := range r.Perm(len(all))[:count] {
			if kind == inventory.KindPlayer {
				players = append(players, all[i])
			} else {
				pieces = append(pieces, all[i])
			}
		}
	}
	return players, pieces
}

func one[T any](s *stream, of ...T) T { return of[s.IntN(len(of))] }

// deed is a command line that may come next.
func (s *stream) deed() []string {
	who, pair, letter, side := one(s, s.sweaters...), one(s, "first", "first", "spare"), one(s, "A", "B", "C", "D"), string(one(s, inventory.Sides()...))
	piece := s.piece(one(s, inventory.KindRunner, inventory.KindRunner, inventory.KindHolder, inventory.KindPair, inventory.KindSet))
	steel, holder, boots := s.piece(inventory.KindRunner), s.piece(inventory.KindHolder), s.piece(inventory.KindPair)
	switch s.IntN(34) {
	case 0, 1, 2:
		return []string{"grind", one(s, who, who, "all")}
	case 3:
		return []string{"grind", who, "--pair", pair, one(s, "--unknown", "--work=hone", "--passes=7")}
	case 4, 5:
		return []string{"measure", who, "--pair", pair, one(s, "--loose", "--fitted"), "--left", s.height(), "--right", s.height(), "--as-read"}
	case 6:
		return []string{"change", who, letter, "--pair", pair, "--reason", one(s, "low", "rotate", "broken")}
	case 7:
		return []string{"in", who, letter, "--pair", pair}
	case 8:
		return []string{"out", one(s, who, steel), "--reason", one(s, "low", "rotate", "broken")}
	case 9:
		return []string{"damage", one(s, steel, holder, boots), "--mode", one(s, "crack", "bend", "loose-rivet", "chip")}
	case 10, 11:
		looked := one(s, steel, holder)
		return one(s, []string{"inspect", looked, "--sound", looked}, []string{"inspect", looked, "--sound", looked}, []string{"inspect", boots, "--unsound"})
	case 12, 13, 14:
		return append([]string{"emergency", who, "--side", side}, one(s, nil, nil, []string{"--broke", "holder", "--mode", "crack"}, []string{"--broke", "runner", "--mode", "break"}, []string{"--pair", pair})...)
	case 15, 16, 17:
		return append([]string{"emergency", "done", who, "--took", "2m", "--broke", one(s, "holder", "runner", "nothing"), "--did"}, s.remedy(pair, letter)...)
	case 18:
		return []string{"emergency", "close", who}
	case 19, 20:
		return []string{"put", piece, "--place", one(s, "shelf", "T1", "B1", "boot room")}
	case 21:
		return []string{"rivet", "off", holder}
	case 22, 23:
		return []string{"rivet", "on", holder, "--pair", boots}
	case 24:
		return []string{"custody", "to", one(s, "maker", "loan", "national"), piece, "--with", "Skua Works"}
	case 25:
		return []string{"custody", "back", piece}
	case 26:
		return []string{"trip", "pack", "Point", piece, "--trunk", "T1"}
	case 27:
		return []string{"set", "add", who, "--left", steel, "--right", s.piece(inventory.KindRunner)}
	case 28:
		return []string{"refuse", who, "--until", s.now.AddDate(0, 0, 5).Format(time.DateOnly), "--answer", "later"}
	case 29:
		return one(s, []string{"pair", "role", boots, one(s, "first", "spare", "third")}, []string{"tried", who}, []string{"skated", who}, []string{"scrap", piece, "--reason", "bent"},
			[]string{"trip", "load", "Point", "T1"}, []string{"trip", "back", "Point", "T1"}, []string{"game", "add", s.now.AddDate(0, 0, s.IntN(9)).Format("2006-01-02T15:04")},
			[]string{"callup", fmt.Sprintf("Odd %d", s.IntN(1000)), "--sweater", fmt.Sprint(40 + s.IntN(40)), "--holder-family", "Skua", "--size", "280"})
	}
	return s.correction(who, piece)
}

// remedy is how somebody got back on the ice.
func (s *stream) remedy(pair, letter string) []string {
	return one(s, []string{"spare", "--with", one(s, "spare", pair)}, []string{"spare", "--with", "spare"}, []string{"steel", "--with", letter},
		[]string{"holder", "--with", s.piece(inventory.KindHolder)}, []string{"mended"}, []string{"nothing"})
}

// correction takes back what was noted last of something, or one of the last entries, among
// them corrections.
func (s *stream) correction(who, piece string) []string {
	events := s.must("history", one(s, who, piece), "--all")["events"].([]any)
	if len(events) == 0 || s.IntN(2) == 0 {
		return []string{"undo", who}
	}
	event := events[len(events)-1-s.IntN(min(len(events), 5))].(map[string]any)
	return []string{"undo", event["event"].(string)}
}

// height is a reading as steel of the club might give, now and then a slip.
func (s *stream) height() string {
	return fmt.Sprintf("%.2f", one(s, steelNew, steelNew, 9)-2*s.Float64())
}

// piece is the number of something in the book.
func (s *stream) piece(kind inventory.Kind) string {
	return one(s, s.numbers(kind)...).String()
}

// numbers are those that the book has of a kind; the record is read anew once it has grown.
func (a *asker) numbers(kind inventory.Kind) []inventory.Number {
	a.t.Helper()
	journal, err := os.Stat(filepath.Join(a.book, "journal.jsonl"))
	if err != nil {
		a.t.Fatal(err)
	}
	if a.listed != journal.Size() {
		a.listed, a.list = journal.Size(), map[inventory.Kind][]inventory.Number{}
		a.reading(func(v inventory.View) {
			for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder, inventory.KindSet, inventory.KindPair, inventory.KindPlayer} {
				v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
					a.list[kind] = append(a.list[kind], n)
					return true
				})
			}
		})
	}
	return a.list[kind]
}

// reading looks at the book's states.
func (a *asker) reading(look func(inventory.View)) {
	a.t.Helper()
	b, err := book.Open(a.book, book.Options{ReadOnly: true})
	if err != nil {
		a.t.Fatal(err)
	}
	defer b.Close()
	if err := b.Read(func(v inventory.View) error { look(v); return nil }); err != nil {
		a.t.Fatal(err)
	}
}
