//go:build outside

package book_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"steeltally/inventory/book/booktest"
)

// The model of power cuts takes the order of a commit's calls from bbolt's source. Here
// strace watches the real ones: for each action the journal is written and synced
// before book.db is touched, book.db's meta page comes after a sync of all other
// pages, and the acknowledgement after the meta page's sync.
func TestOrderOfTheSystemsCalls(t *testing.T) {
	dir := booktest.Make(t)
	trace := filepath.Join(t.TempDir(), "trace")
	cmd := exec.Command("strace", "-f", "-y", "-qq", "-o", trace,
		"-e", "trace=pwrite64,fdatasync,fsync,ftruncate,write", os.Args[0], dir)
	cmd.Env = append(os.Environ(), childJob+"=few")
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(trace)
	if err != nil {
		t.Fatal(err)
	}
	actions := strings.Count(shortened(string(text)), "!")
	pattern := regexp.MustCompile(`^(j+Jp+PmP!)+$`)
	if calls := shortened(string(text)); !pattern.MatchString(calls) || actions < fewActions {
		t.Errorf("%d actions, the calls came in another order: %s", actions, calls)
	}
}

// shortened writes each call as a letter: j and J are a write and a sync of the
// journal, p and P of book.db, m a write of one of its meta pages, ! an
// acknowledgement. A growth of book.db with its sync is left out.
func shortened(trace string) string {
	var calls strings.Builder
	for line := range strings.Lines(trace) {
		switch {
		case strings.Contains(line, "pwrite64") && strings.Contains(line, "journal.jsonl"):
			calls.WriteByte('j')
		case strings.Contains(line, "fdatasync") && strings.Contains(line, "journal.jsonl"):
			calls.WriteByte('J')
		case strings.Contains(line, "pwrite64") && strings.Contains(line, "book.db"):
			calls.WriteByte(pageLetter(line))
		case strings.Contains(line, "fdatasync") && strings.Contains(line, "book.db"):
			calls.WriteByte('P')
		case strings.Contains(line, "write(1<") && strings.Contains(line, "acknowledged"):
			calls.WriteByte('!')
		}
	}
	return calls.String()
}

// pageLetter tells a meta page, at offset 0 or 4096, from others.
func pageLetter(line string) byte {
	fields := strings.Split(line, ", ")
	var offset int64
	if _, err := fmt.Sscanf(fields[len(fields)-1], "%d)", &offset); err == nil && offset < 2*pageBytes {
		return 'm'
	}
	return 'p'
}
