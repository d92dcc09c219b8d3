package book

import (
	"bytes"
	"errors"
	"os"

	"steeltally/inventory"
)

// Age makes a book look as if another version of the fold had made its states, with
// states that cannot be right.
func Age(dir string) error {
	return change(dir, func(w *writing) error {
		w.head.Fold = -1
		return w.rot()
	})
}

// Rot puts something in the place of every state that is whole and no state.
func Rot(dir string) error { return change(dir, (*writing).rot) }

func (w *writing) rot() error {
	var keys [][]byte
	err := w.buckets[thingsBucket].ForEach(func(key, _ []byte) error {
		if key[len(key)-1] == stateMark {
			keys = append(keys, bytes.Clone(key))
		}
		return nil
	})
	for _, key := range keys {
		err = errors.Join(err, w.put(thingsBucket, key, []byte("rot")))
	}
	return err
}

// Unsynced are options for tests that make thousands of books and lose no power.
func Unsynced() Options {
	return Options{faults: &faults{unsynced: true, journal: func(f file) file {
		return unsyncedFile{f.(syncedFile).File}
	}}}
}

// Faulty are options with the parts of a book that a test makes fail.
func Faulty(journal func(File) File, commit func(func() error) error) Options {
	return Options{faults: &faults{journal: func(f file) file { return journal(f) }, commit: commit}}
}

// File is what the journal needs of a file.
type File = file

// UsedBytes is the length of a whole book.db without the room that it has to grow.
func UsedBytes(db []byte) int {
	first, _ := decodeMeta(db)
	second, _ := decodeMeta(db[first.pageSize:])
	return int(max(first.pages, second.pages)) * int(first.pageSize)
}

// Settle makes a closed book store all its states.
func Settle(dir string) error { return change(dir, (*writing).settle) }

// Spoil changes a stored state of a closed book behind its back.
func Spoil(dir string, ref inventory.Ref) error {
	return change(dir, func(w *writing) error {
		return w.buckets[thingsBucket].Put(stateKey(ref), []byte("what was never written"))
	})
}

func change(dir string, change func(*writing) error) error {
	b, err := Open(dir, Options{})
	if err != nil {
		return err
	}
	return errors.Join(b.changingDB(change), b.Close())
}

// CreateOn is Create on a disk of a test.
func CreateOn(sync func(path string) error, rename func(from, to string) error, dir string, stamp Stamp, opening []inventory.Draft) error {
	return found(disk{sync, rename}, dir, nil, func(b *Book) error {
		_, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return opening, nil })
		return err
	})
}

// Recorded are options with which nothing is synced, and a test sees every call.
func Recorded(journal func(File) File, commit func(func() error) error) Options {
	options := Faulty(journal, commit)
	options.faults.unsynced = true
	return options
}

// NewestMeta tells which of the two meta pages of a whole book.db is the newest.
func NewestMeta(db []byte) int {
	first, _ := decodeMeta(db)
	second, _ := decodeMeta(db[first.pageSize:])
	if second.txid > first.txid {
		return 1
	}
	return 0
}

// Places are where in a whole book.db the keys are, and where what is said of pages and
// of entries: their headers.
func Places(t interface {
	Helper()
	Fatal(...any)
}, path string) (keys, headers []int) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	pages, err := readMetas(f)
	if err != nil {
		t.Fatal(err)
	}
	err = walk(f, pages.newest, func(string, []byte, []byte) error { return nil })
	w, opened := newWalker(f, pages.newest)
	if err := errors.Join(err, opened); err != nil {
		t.Fatal(err)
	}
	for id := uint64(2); id < w.meta.pages; id++ {
		p, _, err := w.peek(id)
		if err != nil || p.flags != pageIsLeaf && p.flags != pageIsBranch {
			continue // what overflows, and the list of free pages
		}
		k, h := p.places(int(id) * int(w.meta.pageSize))
		keys, headers = append(keys, k...), append(headers, h...)
	}
	return keys, headers
}

func (p *page) places(at int) (keys, headers []int) {
	for i := range pageHeaderBytes + p.count*pageElementBytes {
		headers = append(headers, at+i)
	}
	for i := range p.count {
		e, err := p.element(i)
		if err != nil {
			continue
		}
		for k := range e.key {
			keys = append(keys, at+int(e.start)+k)
		}
		if e.flags == elementIsBucket && len(e.value) > pageElementBytes {
			inline, err := inlinePage(e.value)
			if err != nil {
				continue
			}
			k, h := inline.places(at + int(e.start) + len(e.key) + pageElementBytes)
			keys, headers = append(keys, k...), append(headers, h...)
		}
	}
	return keys, headers
}

// MarkByDevice gives a closed book the mark of its place as books had it of old.
func MarkByDevice(dir string) error {
	p, err := placeOf(dir)
	if err != nil {
		return err
	}
	return change(dir, func(w *writing) error {
		w.head.Machine = p.markByDevice()
		return nil
	})
}

// CheckMarks tells which marks differ that are of one place, or are the same of two.
func CheckMarks() error {
	p := place{machine: "bench", fileSystem: [2]int32{7, -9}, device: [2]uint32{8, 1}, file: 12}
	moved, copied, cloned, other := p, p, p, p
	moved.device = [2]uint32{8, 17}
	copied.file = 13
	cloned.machine = "laptop"
	other.fileSystem = [2]int32{7, 9}
	if moved.mark() != p.mark() {
		return errors.New("another number of the device makes another mark")
	}
	for _, another := range []place{copied, cloned, other} {
		if another.mark() == p.mark() {
			return errors.New("two places have one mark")
		}
	}
	p.fileSystem, moved.fileSystem = [2]int32{}, [2]int32{}
	if p.mark() == moved.mark() {
		return errors.New("without an id of the file system two devices have one mark")
	}
	return nil
}

// Hold begins to make a file, as a backup does.
func Hold(path string) (*os.File, error) {
	m, err := makeFile(path)
	if err != nil {
		return nil, err
	}
	return m.File, nil
}

// MendOn is Mend on a disk of a test.
func MendOn(sync func(path string) error, rename func(from, to string) error, through func(File) File, dir string) (Mended, error) {
	return mendOn(disk{sync, rename}, func(f file) file { return through(f) }, dir, "the test")
}
