package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// recordWith runs a command line while so many bytes are free, and gives what it said.
func (p *person) recordWith(free uint64, line ...string) (out, notes string) {
	p.t.Helper()
	var said, noted bytes.Buffer
	world := World{
		Stdin: strings.NewReader(p.script), Stdout: &said, Stderr: &noted,
		Getenv: func(string) string { return "" },
		Now: func() time.Time {
			p.now = p.now.Add(time.Minute)
			return p.now
		},
		Room: func(string) (uint64, error) { return free, nil },
	}
	if code := Main(context.Background(), world, append(line, "--book", p.book)); code != exitDone {
		p.t.Fatalf("%v: exit code %d: %s", line, code, &noted)
	}
	return said.String(), noted.String()
}

const lowRoom = "only 199 MB are free on the disk that the book is on"

// Less than 200 MB of free space is told by every command that records, and by none
// that only looks.
func TestLowRoomIsTold(t *testing.T) {
	p := newPerson(t)
	player := p.playerNumber("Lindqvarn")
	for _, line := range []string{"grind " + player, "specs " + player + " --passes 6", "undo"} {
		if _, notes := p.recordWith(199_999_999, strings.Fields(line)...); strings.Count(notes, lowRoom) != 1 {
			t.Errorf("%s with little room notes %q", line, notes)
		}
		if _, notes := p.recordWith(200_000_000, strings.Fields(line)...); strings.Contains(notes, "MB are free") {
			t.Errorf("%s with room enough notes %q", line, notes)
		}
	}
	if _, notes := p.recordWith(1_000_000, "history", player); notes != "" {
		t.Errorf("a look notes %q", notes)
	}
}

// A program is told in its object.
func TestLowRoomIsToldToPrograms(t *testing.T) {
	p := newPerson(t)
	out, _ := p.recordWith(199_999_999, "grind", p.playerNumber("Lindqvarn"), "--json")
	var object struct {
		Notices []inventory.Notice `json:"notices"`
	}
	if err := json.Unmarshal([]byte(out), &object); err != nil {
		t.Fatal(err)
	}
	if len(object.Notices) != 1 || object.Notices[0].Text != lowRoom {
		t.Errorf("a program gets %s", out)
	}
}

// The loop tells it once, not with each scan.
func TestLowRoomIsToldOnceInTheLoop(t *testing.T) {
	p := newPerson(t)
	player := p.playerNumber("Lindqvarn")
	p.script = strings.Repeat(player+"\n\n", 3) + "q\n"
	out, notes := p.recordWith(199_999_999, "scan")
	if grinds := strings.Count(out, "grind on set A"); grinds != 3 {
		t.Errorf("%d grinds were logged of 3: %s", grinds, out)
	}
	if told := strings.Count(notes, lowRoom); told != 1 {
		t.Errorf("it was told %d times: %q", told, notes)
	}
}

// playerNumber is the number of a player, which nobody shares as they do sweaters.
func (p *person) playerNumber(name string) string {
	p.t.Helper()
	out, _ := p.recordWith(1<<40, "player", "list", "--json")
	var list struct {
		Players []struct{ Number, Name string }
	}
	if err := json.Unmarshal([]byte(out), &list); err != nil {
		p.t.Fatal(err)
	}
	for _, player := range list.Players {
		if player.Name == name {
			return player.Number
		}
	}
	p.t.Fatalf("nobody is named %s", name)
	return ""
}
