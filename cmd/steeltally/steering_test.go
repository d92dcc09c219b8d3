package main

import (
	"bytes"
	"context"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/cli"
	"steeltally/inventory"
)

// says runs one command line on a book and gives the exit code and all that was written.
func says(book string, line ...string) (code int, said string) {
	var out bytes.Buffer
	getenv := func(name string) string { return map[string]string{"STEELTALLY_BOOK": book}[name] }
	code = cli.Main(context.Background(), cli.World{
		Stdin: strings.NewReader(""), Stdout: &out, Stderr: &out, Getenv: getenv, Now: func() time.Time { return fixedNow },
	}, line)
	return code, out.String()
}

// scriptClub makes the club of the scripts.
func scriptClub(t *testing.T) string {
	t.Helper()
	book := filepath.Join(t.TempDir(), "book")
	for _, line := range clubLines() {
		if code, said := says(book, line...); code != 0 {
			t.Fatalf("%q: exit code %d: %s", line, code, said)
		}
	}
	return book
}

// Whatever free text a command line takes, one that steers a screen or hides something
// is refused, and the book stays as it is.
func TestNoVerbTakesUnseenText(t *testing.T) {
	book := scriptClub(t)
	before := filesOfBook(t, book)
	for _, text := range []string{"Rime\x1b[2J", "Rime\u202eemiR", "Rime\nall is well", "Rime\u200bPoint", "Bj\xf8rn"} {
		for _, line := range linesWith(text) {
			if code, said := says(book, line...); code != 2 || strings.Contains(said, text) {
				t.Errorf("%q: exit code %d: %q", line, code, said)
			}
		}
	}
	if !bytes.Equal(before, filesOfBook(t, book)) {
		t.Error("something was recorded")
	}
	for _, line := range linesWith("Rime Point") {
		if code, said := says(scriptClub(t), line...); code != 0 {
			t.Errorf("and with a plain text %q: exit code %d: %q", line, code, said)
		}
	}
}

// linesWith are command lines with a free text, each as it may stand on a fresh book.
func linesWith(text string) [][]string {
	return [][]string{
		{"club", "--name", text}, {"player", "add", "--sweater", "9", "--name", text, "--position", "forward"}, {"player", "set", "17", "--name", text},
		{"model", "add", text, "--piece", "runner"}, {"model", "add", "Skua X", "--piece", "runner", "--family", text}, {"model", "add", "Skua X", "--piece", "runner", "--maker", text},
		{"stockin", "runner", "--model", text, "--size", "280"}, {"stockin", "runner", "--model", "Skua R", "--size", "280", "--lot", text},
		{"stockin", "runner", "--model", "Skua R", "--size", "280", "--order", text},
		{"grind", "17", "--by", text}, {"grind", "17", "--key", text}, {"grind", "17", "--machine", text}, {"found", text}, {"found", "17 L", "--place", text},
		{"damage", "R1-1-77", "--mode", "crack", "--note", text}, {"inspect", "P1-1-09", "--note", text}, {"put", "R1-1-77", "--place", text}, {"put", "R1-1-77", "--place", "shelf", "--slot", text},
		{"refuse", "17", "--answer", text, "--until", "2025-12-20"}, {"scrap", "R1-3-71", "--reason", text}, {"undo", "--words", text},
		{"game", "add", "2025-12-06T19:00", "--against", text}, {"trip", "add", text, "--from", "2025-12-04", "--to", "2025-12-08"},
		{"custody", "to", "maker", "R1-3-71", "--with", text}, {"custody", "to", "maker", "R1-3-71", "--with", "Skua Works", "--reference", text},
		{"trade", "17", "--to", text}, {"trip", "kit", text, "--least", "3"},
	}
}

// Texts that lie in an older record or came with another book steer no terminal and no
// program: they keep to their line, and what nobody can see is shown.
func TestOldTextsSteerNothing(t *testing.T) {
	old := scriptClub(t)
	dir := t.TempDir()
	says(old, "damage", "R1-1-77", "--mode", "chip", "--note", "seen by Ansgar Lindqvarn")
	says(old, "found", "17 L Ansgar Lindqvarn")
	lines := filepath.Join(dir, "lines.jsonl")
	if code, said := says(old, "export", "--jsonl", lines); code != 0 {
		t.Fatal(said)
	}
	poisonLines(t, lines, "Ansgar Lindqvarn", `Ansgar\u202e\u200b\n\tLindqvarn`)
	book := filepath.Join(dir, "book")
	if code, said := says(book, "rebuild", "--from", lines, "--into", book); code != 0 {
		t.Fatal(said)
	}
	shown := 0
	for _, line := range [][]string{
		{"history", "17"}, {"history", "R1-1-77"}, {"history", "R1-5-65"}, {"work"}, {"due"}, {"due", "17"}, {"spares"}, {"spares", "17"}, {"grind", "17"}, {"emergency", "17"},
		{"review", "17"}, {"player", "list"}, {"grind", "Ansgar"}, {"buylist"}, {"clearout"}, {"verify"}, {"undo"},
	} {
		for _, form := range [][]string{line, append(line, "--json")} {
			_, said := says(book, form...)
			checkPlain(t, strings.Join(form, " "), said)
			if strings.Contains(said, "\nLindqvarn") || strings.Contains(said, "\n\tLindqvarn") {
				t.Errorf("%q breaks the line: %s", form, said)
			}
			shown += strings.Count(said, `Ansgar\u202e\u200b`)
		}
	}
	if shown < 10 {
		t.Errorf("the text was shown %d times", shown)
	}
}

func checkPlain(t *testing.T, what, said string) {
	t.Helper()
	if unseen, found := inventory.Unseen(strings.ReplaceAll(said, "\n", "")); found {
		t.Errorf("%s writes %q: %q", what, unseen, said)
	}
}

// poisonLines puts another text into an export, with checksums that fit.
func poisonLines(t *testing.T, file, was, is string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil || !bytes.Contains(text, []byte(was)) {
		t.Fatalf("%s has no %s: %v", file, was, err)
	}
	const tail = len(`,"crc32c":"00000000"}`)
	var out strings.Builder
	for line := range strings.Lines(string(text)) {
		line = strings.ReplaceAll(strings.TrimSpace(line), was, is)
		line = line[:len(line)-tail]
		fmt.Fprintf(&out, "%s,\"crc32c\":\"%08x\"}\n", line, crc32.Checksum([]byte(line), crc32.MakeTable(crc32.Castagnoli)))
	}
	if err := os.WriteFile(file, []byte(out.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}
