package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/cli"
	"steeltally/cmd/steeltally/internal/demo"
	"steeltally/geometry"
	"steeltally/inventory"
)

// speedNow is the end of the book that speed is measured on: about 40,000 entries.
var speedNow = time.Date(2026, 1, 14, 7, 0, 0, 0, time.UTC)

func speedBook(b *testing.B) string {
	b.Helper()
	dir := filepath.Join(b.TempDir(), "book")
	summary, err := demo.Write(context.Background(), dir, demo.Options{Seed: 1, End: speedNow})
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("%d entries, %d runners", summary.Events, summary.Runners)
	return dir
}

// runCommand runs a command line as a process would, but for its start (some 10 ms).
func runCommand(b *testing.B, stdin io.Reader, args ...string) string {
	b.Helper()
	var out, errs bytes.Buffer
	world := cli.World{
		Stdin: stdin, Stdout: &out, Stderr: &errs, Now: func() time.Time { return speedNow }, Getenv: func(string) string { return "" },
	}
	if code := cli.Main(context.Background(), world, args); code != 0 {
		b.Fatalf("exit %d: %s", code, errs.String())
	}
	return out.String()
}

// BenchmarkDue asks what is due for all players; 300 ms is wanted.
func BenchmarkDue(b *testing.B) {
	dir := speedBook(b)
	for b.Loop() {
		runCommand(b, nil, "due", "--book", dir)
	}
}

// BenchmarkReviewOfABin reviews a bin of 1,000 pieces with pictures, as a PDF; 2 s are
// wanted.
func BenchmarkReviewOfABin(b *testing.B) {
	dir := speedBook(b)
	var scans []string
	for running := 1; len(scans) < 1000; running++ {
		n, err := inventory.NewNumber(inventory.KindRunner, 1, running)
		if err != nil {
			b.Fatal(err)
		}
		scans = append(scans, n.String())
	}
	pdf := filepath.Join(b.TempDir(), "review.pdf")
	for b.Loop() {
		told := runCommand(b, strings.NewReader(strings.Join(scans, "\n")), "review", "--from", "-", "--pdf", pdf, "--book", dir)
		if !strings.Contains(told, "pages in") {
			b.Fatal(told)
		}
	}
}

// BenchmarkReviewOfTags reviews 1,000 tags where there is no book.
func BenchmarkReviewOfTags(b *testing.B) {
	var scans strings.Builder
	for i := range 1000 {
		fmt.Fprintln(&scans, speedTag(b, i))
	}
	pdf := filepath.Join(b.TempDir(), "review.pdf")
	for b.Loop() {
		runCommand(b, strings.NewReader(scans.String()), "review", "--from", "-", "--pdf", pdf, "--book", filepath.Join(b.TempDir(), "none"))
	}
}

// speedTag is the tag of the i-th runner of a season: 25 players with 20 sets each.
func speedTag(b *testing.B, i int) inventory.Tally {
	b.Helper()
	n, err := inventory.NewNumber(inventory.KindRunner, 1, i+1)
	if err != nil {
		b.Fatal(err)
	}
	player, err := inventory.NewNumber(inventory.KindPlayer, 1, i/40+1)
	if err != nil {
		b.Fatal(err)
	}
	height, final := geometry.Millimetre(21), geometry.Millimetre(15.2)
	side, set := inventory.Left, i/2%20
	if i%2 == 1 {
		side = inventory.Right
	}
	day := speedNow.AddDate(0, 0, -14*(21-set))
	return inventory.Tally{
		Piece: n, Generation: 1, Player: player, Sweater: i/40 + 2, Side: side, In: day.Format("060102"), Out: day.AddDate(0, 0, 14).Format("060102"),
		New: &height, Final: &final, Grinds: 60, Passes: 280 + 7*(i%11), Reason: "LOW",
	}
}
