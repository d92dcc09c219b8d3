package main

import (
	"bytes"
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/cli"
)

// A byte that flipped in a key of book.db never makes a person hear that a cracked piece
// is sound or unknown: the answer is the one of the whole book, or the book is damaged.
func TestFlippedKeysHideNothing(t *testing.T) {
	dir := t.TempDir()
	old, book := filepath.Join(dir, "old"), filepath.Join(dir, "book")
	owned(t, old, clubLines()...)
	owned(t, old, []string{"damage", "R1-1-77", "--mode", "crack", "--at=2025-10-03T08:00:00Z"})
	owned(t, old, []string{"rebuild", "--into", book}) // so that all states are stored
	journal, err := os.ReadFile(filepath.Join(book, "journal.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(filepath.Join(book, "book.db"))
	if err != nil {
		t.Fatal(err)
	}
	// A copy of the folder for each question, as recording is one of them.
	ask := func(db []byte, line []string) (int, string) {
		copied := filepath.Join(t.TempDir(), "book")
		if err := os.Mkdir(copied, 0o700); err != nil {
			t.Fatal(err)
		}
		defer os.RemoveAll(copied)
		for name, data := range map[string][]byte{"journal.jsonl": journal, "book.db": db} {
			if err := os.WriteFile(filepath.Join(copied, name), data, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		var said bytes.Buffer
		world := cli.World{
			Stdin: strings.NewReader(""), Stdout: &said, Stderr: &said,
			Now: func() time.Time { return fixedNow }, Getenv: func(string) string { return "" },
		}
		code := cli.Main(context.Background(), world, append(line, "--book", copied))
		return code, strings.ReplaceAll(said.String(), copied, "")
	}
	keys := regexp.MustCompile(`(?s)([1-9][0-9]{9}|roster|club)[\x00\x01]`).FindAllIndex(whole, -1)
	if len(keys) < 20 {
		t.Fatal("there are hardly any keys: ", len(keys))
	}
	lines := [][]string{
		{"history", "R1-1-77"}, {"history", "17", "--json"}, {"grind", "17"}, {"due"}, {"spares"},
		{"tag", "R1-1-77", "--out", filepath.Join(dir, "tag.png"), "--dpi", "203"},
	}
	if _, said := ask(whole, lines[0]); !strings.Contains(said, "DO NOT SKATE") {
		t.Fatal("nothing warns of the crack: ", said)
	}
	damaged := 0
	for _, line := range lines {
		wantCode, want := ask(whole, line)
		if code, again := ask(whole, line); code != wantCode || again != want {
			t.Fatalf("%v: the whole book gives two answers:\n%s\n%s", line, want, again)
		}
		for _, key := range keys {
			db := bytes.Clone(whole)
			db[key[0]+rand.IntN(key[1]-key[0])] ^= 1 << rand.IntN(8)
			code, got := ask(db, line)
			if code == 5 {
				damaged++
			} else if code != wantCode || got != want {
				t.Fatalf("%v, the key %q: exit code %d, want %d:\n%s\nwant\n%s", line, whole[key[0]:key[1]], code, wantCode, got, want)
			}
		}
	}
	if t.Logf("%d keys, %d commands, %d answers refused", len(keys), len(lines), damaged); damaged == 0 {
		t.Error("no damage was met, so nothing is proved")
	}
}
