package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// stumble runs a command line in a world whose disk can't be asked for its room without a
// fault of the program, which comes after the entry.
func (p *person) stumble(machine string, line ...string) (out, notes string, code int) {
	p.t.Helper()
	var said, noted bytes.Buffer
	world := World{
		Stdin: strings.NewReader(""), Stdout: &said, Stderr: &noted,
		Now:    func() time.Time { p.now = p.now.Add(time.Minute); return p.now },
		Getenv: func(name string) string { return map[string]string{"STEELTALLY_MACHINE": machine}[name] },
		Room:   func(string) (uint64, error) { var free []uint64; return free[len(line)], nil },
	}
	code = Main(context.Background(), world, append(line, "--book", p.book))
	return said.String(), noted.String(), code
}

// A fault of the program ends in two plain lines; what finds it is kept, once, for the
// user alone; the entry before it stands, and the book is let go of.
func TestAFaultReachesNobodyAsAPanic(t *testing.T) {
	p := newPerson(t)
	player := p.playerNumber("Lindqvarn")
	machine := t.TempDir()
	kept := filepath.Join(machine, "faults.txt")
	var first string
	for range 2 {
		out, notes, code := p.stumble(machine, "grind", player)
		lines := strings.Split(strings.TrimSpace(notes), "\n")
		if code != exitFailed || out != "" || len(lines) != 2 || !strings.Contains(lines[0], "a fault in this program: ") {
			t.Fatalf("exit code %d, %q, %q", code, out, notes)
		}
		for _, want := range []string{"what was recorded before stands", "steeltally history", kept} {
			if !strings.Contains(lines[1], want) {
				t.Errorf("%q is not in %q", want, lines[1])
			}
		}
		if strings.Contains(notes, "goroutine") || strings.Contains(notes, ".go:") {
			t.Errorf("a stack is on the screen: %s", notes)
		}
		found, err := os.ReadFile(kept)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(found), "index out of range") || !strings.Contains(string(found), "stumble") || !strings.Contains(string(found), "steeltally grind") {
			t.Errorf("that does not find the fault: %s", found)
		}
		if first == "" {
			first = string(found)
		} else if string(found) != first {
			t.Errorf("the same fault is kept twice: %s", found)
		}
	}
	if file, err := os.Stat(kept); err != nil || file.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", file.Mode(), err)
	}
	out, _ := p.recordWith(1<<40, "history", player)
	if strings.Count(out, "grind on set A") != 2 {
		t.Errorf("the two entries before the faults are not there, or the book was not let go of: %s", out)
	}
}

// A program gets one object, and no place to keep the fault is none to complain of.
func TestAFaultIsOneObjectForPrograms(t *testing.T) {
	p := newPerson(t)
	out, notes, code := p.stumble("", "grind", p.playerNumber("Lindqvarn"), "--json")
	var object struct{ Error, Hint string }
	if err := json.Unmarshal([]byte(out), &object); err != nil || code != exitFailed || notes != "" {
		t.Fatalf("exit code %d, %q, %q, %v", code, out, notes, err)
	}
	if !strings.Contains(object.Error, "a fault in this program") || object.Hint == "" {
		t.Errorf("%+v", object)
	}
}
