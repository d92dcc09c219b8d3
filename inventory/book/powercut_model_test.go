package book_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"steeltally/inventory/book"
)

const sectorBytes = 512

// diskCall is a call to the disk on one of the two files: bytes that are written at a
// place, a new length, or a sync.
type diskCall struct {
	file   string
	at     int64
	data   []byte
	length bool // at is the new length
	sync   bool
}

// recorder notes every call of a book to the disk. The journal's are seen directly.
// Those of book.db are taken from what a commit has changed, in bbolt's order: a new
// length and a sync where it grows, all other pages, a sync, the meta page, a sync.
type recorder struct {
	dir   string
	calls []diskCall
	acks  []ack
}

// ack says that so many events were acknowledged after so many calls.
type ack struct{ calls, events int }

type recordedFile struct {
	book.File
	to *recorder
}

func (f recordedFile) WriteAt(data []byte, at int64) (int, error) {
	f.to.calls = append(f.to.calls, diskCall{file: "journal.jsonl", at: at, data: bytes.Clone(data)})
	return f.File.WriteAt(data, at)
}

func (f recordedFile) Sync() error {
	f.to.calls = append(f.to.calls, diskCall{file: "journal.jsonl", sync: true})
	return nil
}

func (f recordedFile) Truncate(size int64) error {
	f.to.calls = append(f.to.calls, diskCall{file: "journal.jsonl", at: size, length: true})
	return f.File.Truncate(size)
}

func (r *recorder) options() book.Options {
	return book.Recorded(func(f book.File) book.File { return recordedFile{f, r} }, r.commit)
}

func (r *recorder) commit(commit func() error) error {
	path := filepath.Join(r.dir, "book.db")
	before, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if err := commit(); err != nil {
		return err
	}
	after, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if more := len(after) - len(before); more > 0 {
		before = append(before, make([]byte, more)...)
		r.calls = append(r.calls, diskCall{file: "book.db", at: int64(len(after)), length: true}, diskCall{file: "book.db", sync: true})
	}
	r.noteChanged(before, after, 2*pageBytes, len(after))
	r.calls = append(r.calls, diskCall{file: "book.db", sync: true})
	r.noteChanged(before, after, 0, 2*pageBytes)
	r.calls = append(r.calls, diskCall{file: "book.db", sync: true})
	return nil
}

// noteChanged notes the sectors between two places that have changed.
func (r *recorder) noteChanged(before, after []byte, from, to int) {
	for at := from; at < to; at += sectorBytes {
		end := min(at+sectorBytes, to)
		if !bytes.Equal(before[at:end], after[at:end]) {
			r.calls = append(r.calls, diskCall{file: "book.db", at: int64(at), data: bytes.Clone(after[at:end])})
		}
	}
}

// image is a file on a disk: what is safe, and the calls since the last sync.
type image struct {
	safe  []byte
	since []diskCall
}

func (i *image) take(call diskCall, syncing bool) {
	switch {
	case !call.sync:
		i.since = append(i.since, call)
	case syncing:
		for _, one := range i.since {
			i.apply(one, func() bool { return true })
		}
		i.since = nil
	}
}

// apply does a call as far as kept says, sector by sector of the disk.
func (i *image) apply(call diskCall, kept func() bool) {
	if call.length {
		if kept() {
			i.safe = append(i.safe[:min(int64(len(i.safe)), call.at)], make([]byte, max(0, call.at-int64(len(i.safe))))...)
		}
		return
	}
	end := call.at + int64(len(call.data))
	for from := call.at; from < end; {
		to := min(from/sectorBytes*sectorBytes+sectorBytes, end)
		if kept() {
			if int64(len(i.safe)) < to {
				i.safe = append(i.safe, make([]byte, to-int64(len(i.safe)))...)
			}
			copy(i.safe[from:to], call.data[from-call.at:to-call.at])
		}
		from = to
	}
}

// cut gives what is on the disk after the power failed.
func (i *image) cut(random *rand.Rand) []byte {
	odds := random.IntN(5) // from nothing to everything of what was not synced
	for _, call := range i.since {
		i.apply(call, func() bool { return random.IntN(4) < odds })
	}
	return i.safe
}

// powerFailed gives the files after the power failed amid some calls.
func powerFailed(start files, calls []diskCall, syncing bool, random *rand.Rand) files {
	images := map[string]*image{
		"journal.jsonl": {safe: bytes.Clone(start.journal)},
		"book.db":       {safe: bytes.Clone(start.db)},
	}
	for _, call := range calls {
		images[call.file].take(call, syncing)
	}
	return files{images["journal.jsonl"].cut(random), images["book.db"].cut(random)}
}

func (r *recorder) acknowledged(calls int) int {
	events := 0
	for _, one := range r.acks {
		if one.calls <= calls {
			events = one.events
		}
	}
	return events
}

func seeded(t *testing.T) *rand.Rand {
	t.Helper()
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 0))
}
