package main

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// Programs that are told at once to take the last entry back wait for each other: one
// takes it back, and who waited meanwhile takes back nothing else.
func TestProgramsTakeOneEntryBackOnce(t *testing.T) {
	const programs, rounds = 6, 5
	program, book := buildProgram(t), filepath.Join(t.TempDir(), "book")
	line := func(args ...string) *exec.Cmd { return exec.Command(program, append(args, "--book", book)...) }
	run := func(cmd *exec.Cmd) {
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%q: %v: %s", cmd.Args, err, out)
		}
	}
	run(line("init", "--club", "Skarn Harbour Terns"))
	for i := range rounds * programs {
		run(line("player", "add", "--name", fmt.Sprint("Skater ", i), "--sweater", fmt.Sprint(i+1)))
	}
	told := 0
	for range rounds {
		holder, err := desk.Open(desk.Options{Book: book, Now: time.Now}) // so that all of them wait
		if err != nil {
			t.Fatal(err)
		}
		var out [programs]strings.Builder
		var undos [programs]*exec.Cmd
		for i := range undos {
			undos[i] = line("undo")
			undos[i].Stdout, undos[i].Stderr = &out[i], &out[i]
			if err := undos[i].Start(); err != nil {
				t.Fatal(err)
			}
		}
		time.Sleep(150 * time.Millisecond) // they begin; who begins later takes back another one
		if err := holder.Close(); err != nil {
			t.Fatal(err)
		}
		for i, undo := range undos {
			err := undo.Wait()
			switch code := undo.ProcessState.ExitCode(); {
			case code == 3 && strings.Contains(out[i].String(), "was taken back already"):
				told++
			case code != 0 && code != 6:
				t.Errorf("%v: %s", err, out[i].String())
			}
		}
	}
	if told == 0 {
		t.Errorf("of %d programs at once none was told, in %d rounds", programs, rounds)
	}
	run(line("verify"))
}
