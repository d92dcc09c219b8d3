package book_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// mendingDisk is a disk on which a book is mended. Before each call, and amid each write,
// it keeps the folder as a kill would leave it there. Once it is cut, no call does anything.
type mendingDisk struct {
	t       *testing.T
	dir     string
	kills   []map[string][]byte
	journal []diskCall // what the mend did to the journal
	cut     int        // the call that fails, and all after it; 0: none
	half    bool       // a write that fails has written a half
	calls   int
}

func (m *mendingDisk) call(do func() error, half func() error) error {
	m.calls++
	m.kills = append(m.kills, folderOf(m.t, m.dir))
	switch {
	case m.cut == 0 || m.calls < m.cut:
		return do()
	case m.calls == m.cut && m.half && half != nil:
		return errors.Join(half(), errFault)
	}
	return errFault
}

func (m *mendingDisk) mend() (book.Mended, error) {
	sync := func(string) error { return m.call(func() error { return nil }, nil) }
	rename := func(from, to string) error { return m.call(func() error { return os.Rename(from, to) }, nil) }
	return book.MendOn(sync, rename, func(f book.File) book.File { return mendedFile{f, m} }, m.dir)
}

type mendedFile struct {
	book.File
	on *mendingDisk
}

func (f mendedFile) WriteAt(data []byte, at int64) (n int, err error) {
	whole := func() error {
		f.on.journal = append(f.on.journal, diskCall{file: "journal.jsonl", at: at, data: bytes.Clone(data)})
		n, err = f.File.WriteAt(data, at)
		return err
	}
	half := func() error {
		n, err = f.File.WriteAt(data[:len(data)/2], at)
		return err
	}
	return n, f.on.call(whole, half)
}

func (f mendedFile) Truncate(size int64) error {
	return f.on.call(func() error {
		f.on.journal = append(f.on.journal, diskCall{file: "journal.jsonl", at: size, length: true})
		return f.File.Truncate(size)
	}, nil)
}

func (f mendedFile) Sync() error {
	return f.on.call(func() error {
		f.on.journal = append(f.on.journal, diskCall{file: "journal.jsonl", sync: true})
		return nil
	}, nil)
}

// folderOf reads all files of a folder, those in the making too.
func folderOf(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	kept := map[string][]byte{}
	for _, entry := range entries {
		if kept[entry.Name()], err = os.ReadFile(filepath.Join(dir, entry.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return kept
}

func written(t *testing.T, folder map[string][]byte) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range folder {
		if err := os.WriteFile(filepath.Join(dir, name), text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// checkCutMend tells what is wrong with a folder in which a mend was cut off: the book
// opens with everything in it, or says that it can be mended; mended again, and rebuilt,
// everything is in it. What it was stands beside it once.
func checkCutMend(t *testing.T, folder map[string][]byte, whole files, was []byte, events uint64) (wrong string) {
	t.Helper()
	report, err := book.VerifyHere(written(t, folder), "the test")
	if err != nil || !report.OK && !report.Mendable {
		return "verify: " + join(report.Problems, err)
	}
	var mendable *book.MendableError
	if count, err := opens(t, written(t, folder)); err != nil && !errors.As(err, &mendable) || err == nil && count != events {
		return "it opens: " + join(nil, err)
	}
	if sum, err := book.Rebuild(filepath.Join(t.TempDir(), "rebuilt"), written(t, folder), "the test"); err != nil || sum.Events != events || len(sum.Lost) > 0 {
		return "rebuilt it lacks something: " + join(sum.Lost, err)
	}
	dir := written(t, folder)
	mended, err := book.Mend(dir, "the test")
	if err != nil || !mended.OK {
		return "mended again: " + join(mended.Problems, err)
	}
	if count, err := opens(t, dir); err != nil || count != events {
		return "mended again it lacks something: " + join(nil, err)
	}
	booktest.Check(t, dir)
	after := folderOf(t, dir)
	if !bytes.Equal(after["journal.jsonl"], whole.journal) {
		return "mended again the journal is another one"
	}
	for _, name := range []string{"journal.as-found", "journal.as-found.2", "journal.mending"} {
		if has := bytes.Equal(after[name], was); has != (name == "journal.as-found") && (after[name] != nil || has) {
			return name + " is there or is not"
		}
	}
	for name := range after {
		if name[0] == '.' {
			return name + " was left"
		}
	}
	return ""
}

func join(problems []string, err error) string {
	for _, problem := range problems {
		err = errors.Join(err, errors.New(problem))
	}
	if err == nil {
		return "too few, or too many"
	}
	return err.Error()
}

// rewritten are books of which another program rewrote the journal, also where book.db is
// behind it.
func rewritten(t *testing.T) (whole files, by map[string]files, events uint64) {
	t.Helper()
	before, whole := aBook(t, 73)
	dir := whole.write(t)
	events, err := opens(t, dir)
	if err != nil {
		t.Fatal(err)
	}
	crlf := bytes.ReplaceAll(whole.journal, []byte("\n"), []byte("\r\n"))
	marked := append([]byte("\uFEFF \n"), crlf...)
	return whole, map[string]files{
		"CR LF":               {crlf, whole.db},
		"a mark and CR LF":    {marked, whole.db},
		"an empty line":       {append(bytes.Clone(whole.journal), '\n'), whole.db},
		"no end":              {bytes.TrimSuffix(whole.journal, []byte("\n")), whole.db},
		"CR LF, no end":       {bytes.TrimSuffix(marked, []byte("\r\n")), whole.db},
		"book.db behind":      {marked, before.db},
		"an empty line first": {append([]byte("\n"), whole.journal...), before.db},
	}, events
}

// A mend that is killed at any of its calls, or that fails there, loses nothing and is done
// again; so is one that was done again and killed.
func TestAMendThatIsCutOffIsDoneAgain(t *testing.T) {
	t.Parallel()
	whole, by, events := rewritten(t)
	for what, f := range by {
		for _, half := range []bool{false, true} {
			for cut := 1; ; cut++ {
				m := &mendingDisk{t: t, dir: f.write(t), cut: cut, half: half}
				mended, err := m.mend()
				if cut > m.calls {
					if err != nil || !mended.OK {
						t.Errorf("%s: %+v %v", what, mended, err)
					}
					for i, killed := range m.kills {
						if wrong := checkCutMend(t, killed, whole, f.journal, events); wrong != "" {
							t.Errorf("%s, killed at %d: %s", what, i+1, wrong)
						}
					}
					break
				}
				if !errors.Is(err, errFault) {
					t.Errorf("%s: call %d failed and nobody noticed: %v", what, cut, err)
				}
				if wrong := checkCutMend(t, folderOf(t, m.dir), whole, f.journal, events); wrong != "" {
					t.Errorf("%s, call %d failed: %s", what, cut, wrong)
				}
				again := &mendingDisk{t: t, dir: m.dir, cut: 1 + cut%3}
				_, _ = again.mend()
				if wrong := checkCutMend(t, folderOf(t, m.dir), whole, f.journal, events); wrong != "" {
					t.Errorf("%s, call %d failed, and again: %s", what, cut, wrong)
				}
			}
		}
	}
}

// Where the power fails amid a mend, any sectors of the journal can be as they were.
func TestPowerCutsWhileMending(t *testing.T) {
	t.Parallel()
	random := seeded(t)
	whole, by, events := rewritten(t)
	broken := 0
	for what, f := range by {
		m := &mendingDisk{t: t, dir: f.write(t)}
		if _, err := m.mend(); err != nil || len(m.journal) == 0 {
			t.Fatal(err, len(m.journal))
		}
		for range times(100) {
			at := random.IntN(len(m.journal)) // calls before the last, which is the sync
			folder := map[string][]byte{"book.db": f.db, "journal.mending": f.journal}
			folder["journal.jsonl"] = powerFailed(f, m.journal[:at], true, random).journal
			if !bytes.Equal(folder["journal.jsonl"], whole.journal) && !bytes.Equal(folder["journal.jsonl"], f.journal) {
				broken++
			}
			if wrong := checkCutMend(t, folder, whole, f.journal, events); wrong != "" {
				t.Fatalf("%s, cut at %d: %s", what, at, wrong)
			}
		}
	}
	if broken == 0 {
		t.Error("no journal was half of each: the cuts prove nothing")
	}
}
