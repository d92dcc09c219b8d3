package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"steeltally/cmd/steeltally/internal/cli"
	"steeltally/cmd/steeltally/internal/desk"
)

// fixedNow is the clock of the scripts: a Wednesday at 9 in the morning.
var fixedNow = time.Date(2025, 11, 26, 9, 0, 0, 0, time.UTC)

// TestMain lets the scripts run the program as "steeltally". Its clock stands still at
// STEELTALLY_TEST_NOW, so that what it prints can be written down.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"steeltally": runForScript, "lp": lpForScript, "lpstat": lpstatForScript})
}

func runForScript() {
	w := world()
	w.Now, w.Self = scriptClock, "steeltally" // the test binary runs as the program only by that name
	var said bytes.Buffer
	w.Stderr = io.MultiWriter(w.Stderr, &said)
	code := cli.Main(context.Background(), w, os.Args[1:])
	if os.Getenv(wrongHints) != "" {
		noteWrongHints(os.Args[1:], said.String())
	}
	os.Exit(code)
}

func scriptClock() time.Time {
	now, err := time.Parse(time.RFC3339, os.Getenv("STEELTALLY_TEST_NOW"))
	if err != nil {
		fmt.Fprintln(os.Stderr, "the script's clock:", err)
		os.Exit(1)
	}
	return now
}

// TestScripts runs every script: each is a person's day at the command line.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("testdata/script/*.txtar")
	if err != nil || len(scripts) == 0 {
		t.Fatalf("no scripts were found: %v", err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("STEELTALLY_TEST_NOW", fixedNow.Format(time.RFC3339))
			env.Setenv("STEELTALLY_BOOK", "book")
			env.Setenv("STEELTALLY_MACHINE", filepath.Join(env.WorkDir, "machine"))
			env.Setenv(wrongHints, filepath.Join(env.WorkDir, "wrong-hints"))
			env.Defer(func() {
				if wrong, err := os.ReadFile(env.Getenv(wrongHints)); err == nil {
					t.Errorf("hints with a flag that the verb does not have:\n%s", wrong)
				}
			})
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"club":     makeClub,
			"clock":    setClock,
			"exitcode": exitCode,
			"hold":     holdBook,
			"readbook": readBook,
			"bytes":    writeBytes,
		},
		RequireUniqueNames: true,
	})
}

// setClock sets the program's clock: clock 2025-11-26T09:00:30Z.
func setClock(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: clock TIME")
	}
	ts.Setenv("STEELTALLY_TEST_NOW", args[0])
}

// makeClub makes the book that most scripts start from: player 17 with a first pair
// P1-1-09 (holders H1-1-43 left, H1-2-40 right), runners R1-1-77 to R1-4-68 and the
// sets A (on since 2 October 2025) and B.
func makeClub(ts *testscript.TestScript, neg bool, args []string) {
	for _, line := range clubLines() {
		ts.Check(ts.Exec("steeltally", line...))
	}
}

// clubLines are the command lines that make the club of the scripts.
func clubLines() [][]string {
	lines := [][]string{
		{"init", "--club", "Skarn Harbour Terns", "--station", "1"},
		{"player", "add", "--sweater", "17", "--name", "Ansgar Lindqvarn", "--position", "defence"},
		{"specs", "17", "--hollow", "1/2in", "--profile", "11ft", "--passes", "5", "--change-height", "8.4mm"},
		{"pair", "add", "17", "--role", "first"},
		{"model", "add", "Skua H", "--piece", "holder", "--family", "Skua", "--attachment", "bolt"},
		{"model", "add", "Skua R", "--piece", "runner", "--family", "Skua", "--attachment", "bolt", "--thickness", "2.9mm", "--height", "11.9"},
		{"stockin", "holder", "--model", "Skua H", "--size", "280", "--side", "left"},
		{"stockin", "holder", "--model", "Skua H", "--size", "280", "--side", "right"},
		{"rivet", "on", "H1-1-43", "--pair", "P1-1-09"},
		{"rivet", "on", "H1-2-40", "--pair", "P1-1-09"},
		{"stockin", "runner", "--model", "Skua R", "--size", "280", "--count", "4"},
		{"set", "add", "17", "--left", "R1-1-77", "--right", "R1-2-74"},
		{"set", "add", "17", "--left", "R1-3-71", "--right", "R1-4-68"},
	}
	for i := range lines {
		lines[i] = append(lines[i], "--at=2025-10-01T08:00:00Z")
	}
	return append(lines, []string{"in", "17", "A", "--at=2025-10-02T08:00:00Z"})
}

// exitCode runs a command that must end with a code: exitcode 3 steeltally in 17 A.
func exitCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exitcode CODE COMMAND…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// holdBook keeps a book open for writing in this process until the script ends.
func holdBook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: hold BOOK")
	}
	d, err := desk.Open(desk.Options{Book: ts.MkAbs(args[0]), Now: time.Now})
	ts.Check(err)
	ts.Defer(func() { d.Close() })
}

// readBook keeps a book open for reading in this process until the script ends.
func readBook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: readbook BOOK")
	}
	d, err := desk.OpenToRead(desk.Options{Book: ts.MkAbs(args[0]), Now: time.Now})
	ts.Check(err)
	ts.Defer(func() { d.Close() })
}

// writeBytes writes a file byte by byte: bytes list.csv 'No,Text\n17,Bj\xf8rn\n'.
func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: bytes FILE TEXT")
	}
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o600))
}
