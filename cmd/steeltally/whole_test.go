package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/demo"
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// largeBook is a large book that whole commands are measured on beside a small one:
//
//	steeltally demo --dir big --events 1000000
//	go test ./cmd/steeltally -run '^$' -bench Whole -benchtime 1x -book $PWD/big/book
//
// What is recorded there is taken back each time, but some entries stay.
var largeBook = flag.String("book", "", "a large book, such as demo --events 1000000 makes")

// wholeRuns is how often each command line is run on each book; the medians count.
const wholeRuns = 20

// wholeLine is a command line that is measured as a process from its start to its end.
type wholeLine struct {
	name   string
	target time.Duration // for the median on a book of a million entries
	args   func(s steel) []string
	stdin  func(s steel) string
	undo   bool // it records: that is taken back afterwards, untimed
}

// wholeLines are the command lines of a day. Those on one piece or player are to take
// less than 60 ms at a million entries, and less than twice what they take at 10,000.
func wholeLines(dir string) []wholeLine {
	const one = 60 * time.Millisecond
	pdf := filepath.Join(dir, "tags.pdf")
	return []wholeLine{
		{name: "grind", target: one, undo: true, args: func(s steel) []string { return []string{"grind", s.sweater} }},
		{name: "history-runner", target: one, args: func(s steel) []string { return []string{"history", s.runner} }},
		{name: "history-player", target: one, args: func(s steel) []string { return []string{"history", s.sweater} }},
		{name: "tag", target: one, args: func(s steel) []string { return []string{"tag", s.runner, "--out", pdf} }},
		{name: "measure", target: one, undo: true, args: func(s steel) []string {
			return []string{"measure", s.sweater, "--left", "16.1", "--right", "16.1", "--as-read"}
		}},
		{name: "change", target: one, undo: true, args: func(s steel) []string { return []string{"change", s.sweater, s.ready, "--reason", "rotate"} }},
		{name: "spares", target: one, args: func(s steel) []string { return []string{"spares", s.sweater} }},
		{name: "emergency", target: one, undo: true, args: func(s steel) []string { return []string{"emergency", s.sweater, "--side", "right"} }},
		{name: "due-player", target: 300 * time.Millisecond, args: func(s steel) []string { return []string{"due", s.sweater} }},
		{name: "due", target: 300 * time.Millisecond, args: func(steel) []string { return []string{"due"} }},
		{name: "work", args: func(steel) []string { return []string{"work"} }},
		{
			name: "review-1000", target: time.Second, args: func(steel) []string { return []string{"review", "--from", "-"} },
			stdin: func(s steel) string { return s.bin },
		},
		{name: "verify", args: func(steel) []string { return []string{"verify"} }}, // 80,000 entries a second at least
	}
}

// steel is what one of the runs is about: a player with steel on and a ready set.
type steel struct{ sweater, runner, ready, bin string }

// BenchmarkWhole measures command lines as a person meets them: the program is built,
// started, and has ended. The pages of the book are in the system's memory.
func BenchmarkWhole(b *testing.B) {
	program := buildProgram(b)
	small := filepath.Join(b.TempDir(), "small")
	if _, err := demo.Write(context.Background(), small, demo.Options{Seed: 1, End: time.Now(), Events: 10_000}); err != nil {
		b.Fatal(err)
	}
	books := []string{small}
	if *largeBook != "" {
		books = append(books, *largeBook)
	}
	squads := make([][]steel, len(books))
	for i, dir := range books {
		squads[i] = squadOf(b, dir)
	}
	for _, line := range wholeLines(b.TempDir()) {
		b.Run(line.name, func(b *testing.B) { measureWhole(b, program, books, squads, line) })
	}
}

// measureWhole measures one command line on the books in turns, so that both meet the
// same machine.
func measureWhole(b *testing.B, program string, books []string, squads [][]steel, line wholeLine) {
	took := make([][]time.Duration, len(books))
	for b.Loop() {
		for run := range wholeRuns {
			for i, dir := range books {
				took[i] = append(took[i], runWhole(b, program, dir, squads[i][run%len(squads[i])], line))
			}
		}
	}
	medians := make([]time.Duration, len(books))
	for i := range took {
		slices.Sort(took[i])
		medians[i] = took[i][len(took[i])/2]
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(milliseconds(medians[0]), "small-ms")
	if len(medians) > 1 {
		b.ReportMetric(milliseconds(medians[1]), "large-ms")
		b.ReportMetric(float64(medians[1])/float64(medians[0]), "ratio")
		if line.target > 0 {
			b.ReportMetric(milliseconds(line.target), "target-ms")
		}
	}
}

func milliseconds(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// runWhole runs a command line as a process and tells how long it took.
func runWhole(b *testing.B, program, dir string, s steel, line wholeLine) time.Duration {
	b.Helper()
	var stdin io.Reader
	if line.stdin != nil {
		stdin = strings.NewReader(line.stdin(s))
	}
	start := time.Now()
	process(b, program, dir, stdin, line.args(s)...)
	took := time.Since(start)
	if line.undo {
		process(b, program, dir, nil, "undo")
	}
	return took
}

func process(b *testing.B, program, dir string, stdin io.Reader, args ...string) {
	b.Helper()
	cmd := exec.Command(program, append(args, "--book", dir)...)
	var told bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = stdin, &told, &told
	if err := cmd.Run(); err != nil {
		b.Fatalf("%v: %v: %s", args, err, told.String())
	}
}

// buildProgram builds the program as a person would.
func buildProgram(b testing.TB) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), "steeltally")
	cmd := exec.Command("go", "build", "-o", path, ".")
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		b.Fatal(err)
	}
	return path
}

// squadOf lists the players of a book who have steel on and a ready set, and the first
// thousand runners as a bin to scan.
func squadOf(b *testing.B, dir string) []steel {
	b.Helper()
	d, err := desk.OpenToRead(desk.Options{Book: dir, Now: time.Now})
	if err != nil {
		b.Fatal(err)
	}
	defer d.Close()
	players, err := d.Players()
	if err != nil {
		b.Fatal(err)
	}
	var squad []steel
	for _, player := range players {
		sets, err := d.Sets(player.Number.String(), false)
		if err != nil {
			b.Fatal(err)
		}
		s := steel{sweater: fmt.Sprint(player.Sweater), bin: thousandRunners(b)}
		for _, set := range sets {
			switch {
			case set.Letter == player.On:
				s.runner = set.Left.Short()
			case set.State == inventory.Ready:
				s.ready = set.Letter
			}
		}
		if player.On != "" && s.runner != "" && s.ready != "" {
			squad = append(squad, s)
		}
	}
	if len(squad) < 5 {
		b.Fatalf("only %d players of %s have steel on and a ready set", len(squad), dir)
	}
	return squad
}

// thousandRunners are 1,000 scans, as a bin gives them.
func thousandRunners(b *testing.B) string {
	b.Helper()
	var scans strings.Builder
	for running := 1; running <= 1000; running++ {
		n, err := inventory.NewNumber(inventory.KindRunner, 1, running)
		if err != nil {
			b.Fatal(err)
		}
		fmt.Fprintln(&scans, n)
	}
	return scans.String()
}
