package book_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// What an editor or a transfer does to the journal is said in one line, and mended in
// place; where anything else is wrong, nothing is mended.
func TestRewrittenJournalsAreMended(t *testing.T) {
	whole, _ := aBook(t, 71)
	crlf := func(text []byte) []byte { return bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")) }
	inserted := func(text []byte, line string) []byte {
		at := bytes.IndexByte(text, '\n') + 1
		return append(append(bytes.Clone(text[:at]), line...), text[at:]...)
	}
	for what, journal := range map[string][]byte{
		"every line ends in CR LF":               crlf(whole.journal),
		"1 of its":                               bytes.Replace(bytes.Clone(whole.journal), []byte("\n"), []byte("\r\n"), 1),
		"an empty line was added":                append(bytes.Clone(whole.journal), '\n'),
		"2 empty lines were added":               inserted(whole.journal, " \n\t\n"),
		"a byte order mark was put before it":    append([]byte("\uFEFF"), whole.journal...),
		"the end of its last line was taken off": bytes.TrimSuffix(whole.journal, []byte("\n")),
		"every line ends in CR LF, 2 empty lines were added, a byte order mark": append([]byte("\uFEFF"), crlf(append(inserted(whole.journal, "\n"), '\n'))...),
	} {
		dir := files{journal, whole.db}.write(t)
		report, err := book.VerifyHere(dir, "the test")
		if err != nil || report.OK || len(report.Problems) != 1 || !strings.HasPrefix(report.Problems[0], "journal.jsonl: "+what) || !report.Mendable {
			t.Errorf("%s: %v %v", what, report, err)
		}
		var mendable *book.MendableError
		if _, err := book.Open(dir, book.Options{}); !errors.As(err, &mendable) || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: opened: %v", what, err)
		}
		if f := filesOf(t, dir); !bytes.Equal(f.journal, journal) {
			t.Errorf("%s: verify changed something", what)
		}
		before, err := os.Stat(filepath.Join(dir, "journal.jsonl"))
		if err != nil {
			t.Fatal(err)
		}
		mended, err := book.Mend(dir, "the test")
		if err != nil || !mended.OK || mended.Was == "" {
			t.Errorf("%s: %+v %v", what, mended, err)
		}
		kept, err := os.ReadFile(mended.Kept)
		if f := filesOf(t, dir); err != nil || !bytes.Equal(f.journal, whole.journal) || !bytes.Equal(kept, journal) {
			t.Errorf("%s: the journal is another one, or what it was is not kept: %v", what, err)
		}
		if after, err := os.Stat(filepath.Join(dir, "journal.jsonl")); err != nil || !os.SameFile(before, after) {
			t.Errorf("%s: the folder looks like a copy now: %v", what, err)
		}
		booktest.Check(t, dir)
		if again, err := book.Mend(dir, "the test"); err != nil || !again.OK || again.Was != "" {
			t.Errorf("%s, mended again: %+v %v", what, again, err)
		}
	}
}

func TestDamageIsNotMended(t *testing.T) {
	whole, _ := aBook(t, 72)
	damaged := whole.clone()
	damaged.journal[200] ^= 1
	damaged.journal = bytes.ReplaceAll(damaged.journal, []byte("\n"), []byte("\r\n"))
	lost := whole.clone()
	lost.journal = append(bytes.Clone(lost.journal[bytes.IndexByte(lost.journal, '\n')+1:]), '\n')
	spoilt := whole.write(t)
	if err := errors.Join(book.Settle(spoilt), book.Spoil(spoilt, inventory.ClubRef)); err != nil {
		t.Fatal(err)
	}
	other := filesOf(t, spoilt)
	other.journal = append(other.journal, '\n')
	for what, f := range map[string]files{"a flipped byte": damaged, "a lost line": lost, "book.db": other} {
		dir := f.write(t)
		mended, err := book.Mend(dir, "the test")
		if err != nil || mended.OK || mended.Was != "" || mended.Mendable {
			t.Errorf("%s: %+v %v", what, mended, err)
		}
		if is := filesOf(t, dir); !bytes.Equal(is.journal, f.journal) || !bytes.Equal(is.db, f.db) {
			t.Errorf("%s: something was changed", what)
		}
	}
}
