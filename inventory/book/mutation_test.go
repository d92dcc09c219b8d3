package book_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

const pageBytes = 4096

// damages are the ways in which a file can be damaged. Each changes it in place or
// gives a shorter one.
func damages() map[string]func(data []byte) []byte {
	return map[string]func([]byte) []byte{
		"a bit anywhere": func(data []byte) []byte {
			data[rand.IntN(len(data))] ^= 1 << rand.IntN(8)
			return data
		},
		"a byte of a page's header": func(data []byte) []byte {
			at := rand.IntN(len(data)/pageBytes+1)*pageBytes + rand.IntN(16)
			data[min(at, len(data)-1)] ^= byte(1 + rand.IntN(255))
			return data
		},
		"a byte of the first two pages": func(data []byte) []byte {
			data[min(rand.IntN(2)*pageBytes+rand.IntN(80), len(data)-1)] ^= byte(1 + rand.IntN(255))
			return data
		},
		"512 bytes of junk": func(data []byte) []byte {
			at := rand.IntN(len(data)/512+1) * 512
			for i := at; i < min(at+512, len(data)); i++ {
				data[i] = byte(rand.Uint32())
			}
			return data
		},
		"a page of zeros": func(data []byte) []byte {
			at := rand.IntN(len(data)/pageBytes+1) * pageBytes
			clear(data[min(at, len(data)):min(at+pageBytes, len(data))])
			return data
		},
		"a page in the wrong place": func(data []byte) []byte {
			from, to := rand.IntN(len(data)/pageBytes+1)*pageBytes, rand.IntN(len(data)/pageBytes+1)*pageBytes
			copy(data[min(to, len(data)):], bytes.Clone(data[min(from, len(data)):min(from+pageBytes, len(data))]))
			return data
		},
		"the end missing": func(data []byte) []byte { return data[:rand.IntN(len(data))] },
	}
}

// damaged picks a file, or both, and a way.
func damaged(f files, way func([]byte) []byte) files {
	f = f.clone()
	which := rand.IntN(5)
	if which < 2 || which == 4 {
		f.journal = way(f.journal)
	}
	if which >= 2 {
		f.db = way(f.db)
	}
	return f
}

// mutationCount is what a run of mutations came to.
type mutationCount struct{ harmless, found, whole int }

// Whatever is damaged: verify never says that all is well while what is read differs,
// nothing crashes or hangs, and rebuild brings back every event that is intact.
func TestMutations(t *testing.T) {
	t.Parallel()
	dir := booktest.Make(t)
	drive(t, dir, 31, 56)
	whole := filesOf(t, dir)
	whole.db = whole.db[:book.UsedBytes(whole.db)] // what comes after is room to grow
	want := exported(t, dir)
	for line := range bytes.Lines(want) {
		if !bytes.Contains(whole.journal, line) || !bytes.Contains(whole.db, textInDB(t, line)) {
			t.Fatalf("not in both files before the damage: %s", line)
		}
	}
	state := stateOf(t, dir)
	counts := map[string]*mutationCount{}
	for what, way := range damages() {
		counts[what] = &mutationCount{}
		for range times(10_000) / len(damages()) {
			f := damaged(whole, way)
			changed := !bytes.Equal(f.journal, whole.journal) || !bytes.Equal(f.db, whole.db)
			oneWhole := bytes.Equal(f.journal, whole.journal) || bytes.Equal(f.db, whole.db)
			checkMutation(t, f, changed, oneWhole, want, state, counts[what])
			if t.Failed() {
				t.Fatal(what)
			}
		}
	}
	for what, c := range counts {
		t.Logf("%-32s %d found, %d in bytes that nothing reads, %d brought back whole", what, c.found, c.harmless, c.whole)
		if c.found == 0 {
			t.Errorf("%s: nothing was found, so nothing is proved", what)
		}
	}
}

func checkMutation(t *testing.T, f files, changed, oneWhole bool, want []byte, state string, count *mutationCount) {
	t.Helper()
	dir := f.write(t)
	defer os.RemoveAll(dir)
	start := time.Now()
	report, err := book.VerifyHere(dir, "the test")
	if err != nil {
		t.Fatal(err)
	}
	if is := filesOf(t, dir); !bytes.Equal(is.journal, f.journal) || !bytes.Equal(is.db, f.db) {
		t.Error("verify changed something")
	}
	if report.OK {
		if !bytes.Equal(exported(t, dir), want) || stateOf(t, dir) != state {
			t.Error("verify says that all is well, and what is read differs")
		}
		if changed {
			count.harmless++
		}
	} else {
		count.found++
		checkSalvage(t, f, oneWhole, dir, want, count)
		tryToUse(t, dir)
	}
	if took := time.Since(start); took > 10*time.Second {
		t.Errorf("took %v", took)
	}
}

// checkSalvage tells whether a rebuild has every line that is intact in the journal,
// and everything where one of the files was not touched.
func checkSalvage(t *testing.T, f files, oneWhole bool, dir string, want []byte, count *mutationCount) {
	t.Helper()
	into := filepath.Join(dir, "rebuilt")
	report, err := book.Rebuild(into, dir, "the test")
	if errors.Is(err, book.ErrNothingIntact) {
		checkNothingIntact(t, f, want)
		return
	}
	if err != nil {
		t.Fatal(err, report)
	}
	got := exported(t, into)
	if bytes.Equal(got, want) {
		count.whole++
	} else if oneWhole {
		t.Error("one of the files was not touched, and the rebuilt book differs")
	}
	for line := range bytes.Lines(want) {
		kept := bytes.TrimSuffix(line, []byte("\n"))
		if bytes.Contains(f.journal, line) && !bytes.Contains(got, kept) {
			t.Errorf("lost although intact in the journal: %s", line)
		}
	}
	if count.found%25 == 1 {
		booktest.Check(t, into)
	}
}

// textInDB is what book.db keeps of a line: not its start and not its checksum.
func textInDB(t *testing.T, line []byte) []byte {
	t.Helper()
	_, text, found := bytes.Cut(line, []byte(`,"happened":`))
	if !found {
		t.Fatalf("no event: %s", line)
	}
	return text[:bytes.LastIndex(text, []byte(`,"crc32c":`))]
}

// checkNothingIntact looks for the text of every event in both files.
func checkNothingIntact(t *testing.T, f files, want []byte) {
	t.Helper()
	for line := range bytes.Lines(want) {
		if bytes.Contains(f.journal, line) {
			t.Errorf("said to be lost although intact in the journal: %s", line)
		}
		if bytes.Contains(f.db, textInDB(t, line)) {
			t.Errorf("said to be lost although intact in book.db: %s", line)
		}
	}
}

// A key that a branch has for a page below and that became another, however little, is
// found by verify as it is by who reads.
func TestChangedKeysOfBranchesAreFound(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 31, 56)
	whole := filesOf(t, dir)
	branches := branchPages(whole.db)
	keys, _ := book.Places(t, filepath.Join(dir, "book.db"))
	want, state, count := exported(t, dir), stateOf(t, dir), &mutationCount{}
	for _, at := range keys {
		if !slices.Contains(branches, at/pageBytes) {
			continue
		}
		f := whole.clone()
		f.db[at] ^= 1 << (at % 8)
		checkMutation(t, f, true, true, want, state, count)
		if t.Failed() {
			t.Fatalf("byte %d", at)
		}
	}
	t.Logf("%+v", *count)
	if count.found == 0 {
		t.Error("no key of a branch in use was changed")
	}
}

// tryToUse opens a damaged book for writing, as any command does. It may work where the
// damage is not met; then what is recorded must be there. It must not crash.
func tryToUse(t *testing.T, dir string) {
	t.Helper()
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		return
	}
	_, err = b.Record(booktest.Stamp(), booktest.Decide)
	var damage *book.DamageError
	var unknown *book.UnknownError
	if err != nil && !errors.As(err, &damage) && !errors.As(err, &unknown) {
		t.Errorf("an odd error: %v", err)
	}
	_ = b.Close() // may fail in a damaged file, but not crash
}

func TestVerifyStopsInTime(t *testing.T) {
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	t.Setenv(childJob, "hold")
	dir := booktest.Make(t)
	held(t, dir)
	t.Setenv(childJob, "append")
	if _, err := book.Verify(ctx, os.Args[0], dir); err == nil {
		t.Error("a verify that never ends came to an end")
	}
}
