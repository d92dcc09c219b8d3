package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/cli"
)

// owned runs one command line after the other on a book in a folder, and must succeed.
func owned(t *testing.T, book string, lines ...[]string) {
	t.Helper()
	for _, line := range lines {
		var said bytes.Buffer
		world := cli.World{
			Stdin: strings.NewReader(""), Stdout: &said, Stderr: &said,
			Now: func() time.Time { return fixedNow }, Getenv: func(string) string { return "" },
		}
		if code := cli.Main(context.Background(), world, append(line, "--book", book)); code != 0 {
			t.Fatalf("%v: exit code %d: %s", line, code, said.String())
		}
	}
}

// Whatever the mask of whoever runs the program, the book and all that is written of it
// are for the owner alone: a list of names and sizes is nobody else's.
func TestNobodyElseReadsWhatIsWritten(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0))
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	owned(t, in("book"),
		[]string{"init", "--club", "Skarn Harbour Terns", "--station", "1"},
		[]string{"player", "add", "--sweater", "17", "--name", "Ansgar Lindqvarn", "--position", "defence"},
		[]string{"stockin", "runner", "--model", "Skua R", "--size", "280"},
		[]string{"backup", in("terns.zip")},
		[]string{"export", "--jsonl", in("all.jsonl")},
		[]string{"export", "--csv", in("tables")},
		[]string{"tag", "R1-1-77", "--out", in("tags.pdf")},
		[]string{"tag", "R1-1-77", "--out", in("tags.png")},
		[]string{"review", "--pdf", in("review.pdf")},
		[]string{"rebuild", "--from", in("terns.zip"), "--into", in("again")},
	)
	files := 0
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		want := fs.FileMode(0o600)
		if entry.IsDir() {
			want = 0o700
		}
		if files++; info.Mode().Perm() != want {
			t.Errorf("%s is %v, want %v", path, info.Mode().Perm(), want)
		}
		return nil
	})
	if err != nil || files < 17 {
		t.Errorf("%d files were looked at: %v", files, err)
	}
}

// No cell of a table is taken for a formula: OWASP, "CSV Injection", names the
// characters that begin one.
func TestNoCellIsAFormula(t *testing.T) {
	dir := t.TempDir()
	book, tables := filepath.Join(dir, "book"), filepath.Join(dir, "tables")
	owned(t, book, []string{"init", "--club", "Skarn Harbour Terns", "--station", "1"},
		[]string{"stockin", "runner", "--model", "Skua R", "--size", "280", "--count", "4"})
	names := []string{"=1+1", "+1", "-1", "@SUM(A1)"}
	for i, piece := range []string{"R1-1-77", "R1-2-74", "R1-3-71", "R1-4-68"} {
		owned(t, book, []string{"put", piece, "--place=" + names[i]})
	}
	owned(t, book, []string{"export", "--csv", tables})
	file, err := os.Open(filepath.Join(tables, "pieces.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	escaped := 0
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
				t.Errorf("the cell %q is a formula", cell)
			}
			if name, ok := strings.CutPrefix(cell, "'"); ok && strings.Contains(strings.Join(names, "\n"), name) {
				escaped++
			}
		}
	}
	if escaped != len(names) {
		t.Errorf("%d places were escaped of %d", escaped, len(names))
	}
}
