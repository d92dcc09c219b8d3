//go:build outside

package main

import (
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// fromJSON runs a command line beside the station and reads the object that it prints.
func fromJSON[T any](t *testing.T, book string, line ...string) T {
	t.Helper()
	var value T
	text := command(t, append(line, "--book", book, "--json")...)
	if err := json.Unmarshal([]byte(text), &value); err != nil {
		t.Fatalf("%v: %v: %s", line, err, text)
	}
	return value
}

type playerSets struct {
	Sets []struct {
		Set    string
		Number string
		State  string
	}
}

type listedPlayers struct {
	Players []struct {
		Number  string
		Sweater int
		Set     string `json:"set_on"`
		On      string
	}
}

// TestTheDayOnTheScreen is a whole day at the jig, in a browser, with the keys that it
// costs a person counted against what it may cost.
func TestTheDayOnTheScreen(t *testing.T) {
	s, book := openDemo(t)
	s.pictures("empty")
	players := skating(t, book)
	if len(players) < 24 {
		t.Fatalf("only %d players skate", len(players))
	}
	s.part("22 pairs ground with no key", func(t *testing.T) { s.practice(t, players[:22]) })
	s.part("a second scan within a minute asks", func(t *testing.T) { s.twice(t, players[21].number) })
	s.part("three keys a player", func(t *testing.T) { s.typed(t, players[23].sweater) })
	s.part("measured with a caliper", func(t *testing.T) { s.measured(t, players[2].number) })
	s.part("steel changed", func(t *testing.T) { s.changed(t, book) })
	s.part("something broke", func(t *testing.T) { s.broke(t, players[5].number) })
	s.part("the bin", func(t *testing.T) { s.bin(t, book) })
	s.part("the trip", func(t *testing.T) { s.trip(t, book) })
	s.part("taken back", func(t *testing.T) { s.undone(t, players[0].number) })
	s.part("every screen", func(t *testing.T) { s.everyScreen(t) })
	if out, err := exec.Command(buildProgram(t), "verify", "--book", book).CombinedOutput(); err != nil {
		t.Errorf("the book: %v: %s", err, out)
	}
}

// skater is a player with steel on.
type skater struct {
	number  string
	sweater int
}

func skating(t *testing.T, book string) []skater {
	t.Helper()
	var players []skater
	for _, p := range fromJSON[listedPlayers](t, book, "player", "list").Players {
		if p.Set != "" {
			players = append(players, skater{p.Number, p.Sweater})
		}
	}
	return players
}

func card(code inventory.ActionCode) string { return inventory.Actions()[code-1].Number.String() }

func (s *screen) practice(t *testing.T, players []skater) {
	before := s.keys
	s.scan(card(inventory.ActGrind))
	for _, player := range players {
		if told := s.scan(player.number); !strings.Contains(told, "RECORDED") || !strings.Contains(told, "grind on set") {
			t.Fatalf("%d: %s", player.sweater, told)
		}
	}
	s.pictures("jig")
	if s.keys != before {
		t.Errorf("%d keys were pressed", s.keys-before)
	}
	if told := s.scan(card(inventory.ActDone)); !strings.Contains(told, "not logged this session: ") {
		t.Errorf("%s", told)
	}
}

func (s *screen) twice(t *testing.T, player string) {
	if told := s.scan(player); !strings.Contains(told, "once more?") || strings.Contains(told, "RECORDED") {
		t.Errorf("%s", told)
	}
	s.pictures("asked")
	if told := s.scan(card(inventory.ActNo)); !strings.Contains(told, "not logged again") {
		t.Errorf("%s", told)
	}
	s.scan(card(inventory.ActLook))
}

func (s *screen) typed(t *testing.T, sweater int) {
	s.scan(card(inventory.ActGrind))
	before := s.keys
	if told := s.press(strconv.Itoa(sweater)); !strings.Contains(told, "RECORDED") {
		t.Errorf("%s", told)
	}
	if got := s.keys - before; got > 3 {
		t.Errorf("%d keys", got)
	}
	s.scan(card(inventory.ActLook))
}

// measured: one scan, then nothing but the caliper's own presses.
func (s *screen) measured(t *testing.T, player string) {
	s.scan(player)
	heights := run[string](s, `[...document.querySelectorAll(".heights dd")].map((d) => parseFloat(/[0-9]+[.][0-9]+/.exec(d.innerText))).slice(0, 2).join(" ")`)
	var left, right float64
	if _, err := fmt.Sscan(heights, &left, &right); err != nil {
		t.Fatalf("%q: %v", heights, err)
	}
	before, told := s.keys, ""
	for i := range 6 {
		height := left
		if i > 2 {
			height = right
		}
		told = s.scan(fmt.Sprintf("%.2f", height))
	}
	if s.keys != before || !strings.Contains(told, "RECORDED") || !strings.Contains(told, "height") {
		t.Errorf("%d keys; %s", s.keys-before, told)
	}
}

// changed: two scans, and the tags of the old steel, which others can read.
func (s *screen) changed(t *testing.T, book string) {
	before, start := s.keys, time.Now()
	s.scan(readySet(t, book))
	told := s.scan(card(inventory.ActChange))
	if strings.Contains(told, "why does it come off?") {
		told = s.press("1") // steel that is not low: why is asked, in two keys
	}
	if s.keys > before+2 || !strings.Contains(told, "RECORDED") || !strings.Contains(told, "2 tags to tie on") {
		t.Fatalf("%s", told)
	}
	s.wait(`[...document.querySelectorAll(".tags img")].length === 2 && [...document.querySelectorAll(".tags img")].every((i) => i.complete && i.naturalWidth > 100)`)
	if took := time.Since(start); took > 15*time.Second {
		t.Errorf("the change took %s", took)
	}
	s.pictures("change")
	pieces := run[string](s, `document.querySelector(".tags form input").value`)
	run[bool](s, `document.querySelector(".tags form button").click(), true`)
	s.wait(`fetch("/part", {method: "POST", body: JSON.stringify({talk: {screen: "tags"}})}).then((r) => r.json()).then((a) => a.main.includes("tie-on"))`)
	file := filepath.Join(t.TempDir(), "tags.pdf")
	pdf := run[string](s, `fetch("/tags", {method: "POST", body: new URLSearchParams({pieces: document.querySelector(".tags form input").value})}).then((r) => r.arrayBuffer()).then((b) => Array.from(new Uint8Array(b), (c) => c.toString(16).padStart(2, "0")).join(""))`)
	writeHex(t, file, pdf)
	read := tagsIn(t, file)
	for _, piece := range strings.Fields(pieces) {
		n, err := inventory.ParseNumber(piece)
		if err != nil || !strings.Contains(read, n.String()) {
			t.Errorf("%s is not on the tags: %s, %v", piece, read, err)
		}
	}
}

// tagsIn is what an independent reader finds in the pages of a PDF.
func tagsIn(t *testing.T, file string) string {
	t.Helper()
	picture := strings.TrimSuffix(file, ".pdf")
	if out, err := exec.Command("pdftoppm", "-r", "203", "-png", "-mono", file, picture).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	pages, err := filepath.Glob(picture + "*.png")
	if err != nil || len(pages) == 0 {
		t.Fatalf("no pages: %v", err)
	}
	out, err := exec.Command("zbarimg", append([]string{"-q", "--raw"}, pages...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return string(out)
}

// broke: one scan says what helps, the clock runs, and the questions come afterwards.
func (s *screen) broke(t *testing.T, player string) {
	s.scan(player)
	if told := s.scan(card(inventory.ActBrokeRight)); !strings.Contains(told, "DO NOT SKATE") {
		t.Errorf("%s", told)
	}
	s.wait(`document.querySelector(".rescue .takes") !== null && !document.getElementById("clock").hidden`)
	first := s.text("#clock b")
	s.pictures("broken")
	s.wait(fmt.Sprintf(`document.querySelector("#clock b").innerText !== %q`, first))
	for _, answer := range []string{"ed", "1", "1", "1", "1"} {
		if told := s.press(answer); !strings.Contains(told, "ANSWER") {
			t.Errorf("%s: %s", answer, told)
		}
	}
	if told := s.press("0"); !strings.Contains(told, "RECORDED") {
		t.Errorf("%s", told)
	}
	s.wait(`document.getElementById("clock").hidden`)
}

// bin: sixty tags, one scan each, and the trends.
func (s *screen) bin(t *testing.T, book string) {
	s.key("F8")
	s.wait(`document.querySelector("#main h2")?.innerText.startsWith("The bin") === true`)
	before := s.keys
	for _, piece := range removedPieces(t, book, 60) {
		if told := s.scan(piece); !strings.Contains(told, "piece") {
			t.Fatalf("%s: %s", piece, told)
		}
	}
	s.wait(`document.querySelectorAll(".plot svg").length > 0`)
	if got := s.text("#main h2"); got != "The bin: 60 pieces" || s.keys != before {
		t.Errorf("%q, %d keys", got, s.keys-before)
	}
	s.pictures("bin")
	s.press("q")
}

// trip: a trunk is scanned, then what goes into it.
func (s *screen) trip(t *testing.T, book string) {
	s.key("F4")
	s.wait(`document.querySelector("#main h2")?.innerText.startsWith("Trip") === true`)
	if told := s.press("t1"); !strings.Contains(told, "trip") {
		t.Fatalf("%s", told)
	}
	s.scan(firstTrunk(t, book))
	if told := s.scan(sparePair(t, book)); !strings.Contains(told, "RECORDED") {
		t.Errorf("%s", told)
	}
	s.pictures("trip")
	s.key("F1")
	s.wait(`document.querySelector("nav [aria-current]")?.dataset.screen === "jig"`)
}

func (s *screen) undone(t *testing.T, player string) {
	s.scan(player)
	if told := s.press("x"); !strings.Contains(told, "RECORDED") && !strings.Contains(told, "once more?") {
		t.Errorf("%s", told)
	}
	s.press("y")
	before := s.keys
	if told := s.press("u"); !strings.Contains(told, "taken back") {
		t.Errorf("%s", told)
	}
	if got := s.keys - before; got != 2 {
		t.Errorf("%d keys", got)
	}
}

func (s *screen) everyScreen(t *testing.T) {
	for key, name := range map[string]string{"F2": "due", "F3": "spares", "F9": "tags"} {
		s.key(key)
		s.wait(fmt.Sprintf(`document.querySelector("nav [aria-current]")?.dataset.screen === %q`, name))
		s.wait(`document.querySelectorAll("#main table tbody tr").length > 0`)
		s.pictures(name)
	}
	s.key("F1")
	s.wait(`document.querySelector("nav [aria-current]")?.dataset.screen === "jig"`)
	s.press("8")
	s.press("h")
	s.wait(`document.querySelectorAll("#main table tbody tr").length > 0`)
	s.pictures("piece")
}

// readySet is a set that could go on in place of what a player has on.
func readySet(t *testing.T, book string) string {
	t.Helper()
	for _, p := range fromJSON[listedPlayers](t, book, "player", "list").Players {
		for _, set := range fromJSON[playerSets](t, book, "set", "list", p.Number).Sets {
			if p.Set != "" && set.State == "ready" {
				return set.Number
			}
		}
	}
	t.Fatal("nobody has a ready set")
	return ""
}

// removedPieces are runners that are done with.
func removedPieces(t *testing.T, book string, want int) []string {
	t.Helper()
	dir := t.TempDir()
	command(t, "export", "--csv", dir, "--book", book)
	table, err := os.Open(filepath.Join(dir, "pieces.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer table.Close()
	rows, err := csv.NewReader(table).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number, state := slices.Index(rows[0], "number"), slices.Index(rows[0], "state")
	var pieces []string
	for _, row := range rows[1:] {
		if strings.HasPrefix(row[number], "1") && row[state] == "removed" && len(pieces) < want {
			pieces = append(pieces, row[number])
		}
	}
	if len(pieces) < want {
		t.Fatalf("only %d removed runners", len(pieces))
	}
	return pieces
}

func firstTrunk(t *testing.T, book string) string {
	t.Helper()
	return fromJSON[struct{ Number string }](t, book, "stockin", "trunk", "--name", "Trunk of the day").Number
}

func sparePair(t *testing.T, book string) string {
	t.Helper()
	spares := fromJSON[struct {
		Players []struct{ Pair string }
	}](t, book, "spares")
	for _, p := range spares.Players {
		if p.Pair != "" {
			return p.Pair
		}
	}
	t.Fatal("nobody has a spare pair")
	return ""
}

func writeHex(t *testing.T, file, text string) {
	t.Helper()
	data, err := hex.DecodeString(text)
	if err == nil {
		err = os.WriteFile(file, data, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}
