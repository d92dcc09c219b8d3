package book_test

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// recordedSession records actions of one to three events, and some in bulk.
func recordedSession(t *testing.T) (files, *recorder) {
	t.Helper()
	dir := booktest.Make(t)
	start := filesOf(t, dir)
	r := &recorder{dir: dir}
	b, err := book.Open(dir, r.options())
	if err != nil {
		t.Fatal(err)
	}
	events := 1
	note := func(recorded []inventory.Event) {
		events += len(recorded)
		r.acks = append(r.acks, ack{len(r.calls), events})
	}
	drawer := booktest.NewDrawer(51)
	for range 40 {
		recorded := booktest.Record(t, b, drawer.Action()...)
		drawer.Learn(recorded)
		note(recorded)
	}
	var many []inventory.Event
	err = b.Bulk(func(record book.Recorder) error {
		for range 150 {
			one, err := record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { return drawer.Action(), nil })
			if err != nil {
				return err
			}
			many = append(many, one...)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	note(many)
	for range 10 {
		note(booktest.Record(t, b, drawer.Action()...))
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return start, r
}

// actionEnds are the numbers of events after which an action is whole.
func actionEnds(journal []byte) map[int]bool {
	ends := map[int]bool{}
	count := 0
	for line := range bytes.Lines(journal) {
		count++
		ends[count] = !bytes.Contains(line, []byte(`"more":`))
	}
	return ends
}

// outcome is what a book is like after the power failed.
type outcome int

const (
	fine outcome = iota
	lost         // acknowledged events are missing, or the book does not open
	halfDone
)

func judge(t *testing.T, f files, acknowledged int, ends map[int]bool) (outcome, *recorder, files) {
	t.Helper()
	dir := f.write(t)
	defer os.RemoveAll(dir)
	r := &recorder{dir: dir}
	report, err := book.VerifyHere(dir, "the test")
	if err != nil || !report.OK {
		return lost, r, f
	}
	b, err := book.Open(dir, r.options())
	if err != nil {
		return lost, r, f
	}
	counts, err := b.Counts()
	if err := errors.Join(err, b.Close()); err != nil {
		return lost, r, f
	}
	switch {
	case int(counts.Events) < acknowledged:
		return lost, r, f
	case !ends[int(counts.Events)]:
		return halfDone, r, f
	}
	if rand.IntN(100) == 0 {
		booktest.Check(t, dir)
	}
	return fine, r, f
}

// cutOften cuts the power amid the calls of a session, and often again amid what the
// next opening does. It counts what came of it.
func cutOften(t *testing.T, cuts int, syncing bool) map[outcome]int {
	t.Helper()
	random := seeded(t)
	start, session := recordedSession(t)
	ends := actionEnds(journalOf(start, session))
	outcomes := map[outcome]int{}
	for range cuts {
		at := random.IntN(len(session.calls) + 1)
		acknowledged := session.acknowledged(at)
		f := powerFailed(start, session.calls[:at], syncing, random)
		came, recovery, f := judge(t, f, acknowledged, ends)
		if came == fine && len(recovery.calls) > 0 && random.IntN(2) == 0 {
			again := random.IntN(len(recovery.calls) + 1)
			f = powerFailed(f, recovery.calls[:again], syncing, random)
			came, _, _ = judge(t, f, acknowledged, ends)
		}
		outcomes[came]++
	}
	return outcomes
}

// journalOf is the journal as the whole session leaves it.
func journalOf(start files, session *recorder) []byte {
	return powerFailed(start, append(session.calls, diskCall{file: "journal.jsonl", sync: true}), true, rand.New(rand.NewPCG(1, 1))).journal
}

func TestPowerCuts(t *testing.T) {
	t.Parallel()
	cuts := times(10_000)
	outcomes := cutOften(t, cuts, true)
	t.Logf("%d cuts: %v fine, %d lost something, %d left an action half done", cuts, outcomes[fine], outcomes[lost], outcomes[halfDone])
	if outcomes[fine] != cuts || cuts == 0 {
		t.Error("a disk that honours syncs lost something")
	}
}

// The same harness must see losses where nothing is synced, or else it proves nothing.
func TestPowerCutsWithoutSyncing(t *testing.T) {
	t.Parallel()
	cuts := times(2000)
	outcomes := cutOften(t, cuts, false)
	t.Logf("%d cuts without syncing: %v fine, %d lost something, %d left an action half done", cuts, outcomes[fine], outcomes[lost], outcomes[halfDone])
	if outcomes[lost] < cuts/10 {
		t.Error("without syncing hardly anything was lost: the harness sees nothing")
	}
}

// making is a disk on which a book is made: what was synced, and in which order.
type making struct {
	steps []string // "sync" with a path, or "rename"
	paths []string
}

func (m *making) create(t *testing.T) files {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "book")
	note := func(step, path string) { m.steps, m.paths = append(m.steps, step), append(m.paths, path) }
	sync := func(path string) error {
		note("sync", filepath.Base(path))
		return nil
	}
	rename := func(from, to string) error {
		note("rename", "")
		return os.Rename(from, to)
	}
	if err := book.CreateOn(sync, rename, dir, booktest.Stamp(), booktest.Opening()); err != nil {
		t.Fatal(err)
	}
	return filesOf(t, dir)
}

// cutWhileMaking gives the folder that is found after a cut, or nothing where the book
// is not in its place. Of a file that was not synced any sectors can be there, or none.
func (m *making) cutWhileMaking(t *testing.T, whole files, syncing bool, random *rand.Rand) (string, bool) {
	t.Helper()
	at := random.IntN(len(m.steps) + 1)
	synced := map[string]bool{}
	renamed := false
	for i := range at {
		synced[m.paths[i]] = synced[m.paths[i]] || m.steps[i] == "sync" && syncing
		renamed = renamed || m.steps[i] == "rename"
	}
	if !renamed || at < len(m.steps) && random.IntN(2) == 0 {
		return "", false
	}
	partly := func(name string, data []byte) []byte {
		kept := &image{since: []diskCall{{data: data}}}
		kept.take(diskCall{sync: true}, synced[name])
		return kept.cut(random)
	}
	return files{partly("journal.jsonl", whole.journal), partly("book.db", whole.db)}.write(t), true
}

func TestPowerCutsWhileMaking(t *testing.T) {
	for _, syncing := range []bool{true, false} {
		random := seeded(t)
		m := &making{}
		whole := m.create(t)
		there, broken := 0, 0
		for range times(2000) {
			dir, visible := m.cutWhileMaking(t, whole, syncing, random)
			if !visible {
				continue
			}
			there++
			if report, err := book.VerifyHere(dir, "the test"); err != nil || !report.OK {
				broken++
			}
		}
		t.Logf("syncing %v: %d books in their place, %d of them broken", syncing, there, broken)
		if there == 0 || (broken > 0) == syncing {
			t.Errorf("syncing %v: %d of %d books broken", syncing, broken, there)
		}
	}
}
