package book

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"go.etcd.io/bbolt"
	"golang.org/x/sys/unix"

	"steeltally/inventory"
)

// Create makes a book with its first events, the club among them. The path must not
// exist, or be an empty folder; its parent must exist. Either the whole book is there
// and on disk afterwards, or nothing is.
func Create(dir string, stamp Stamp, opening []inventory.Draft) error {
	return CreateWith(dir, nil, stamp, opening)
}

// CreateWith is Create with a source of random bytes for the writer's id; nil is the
// system's.
func CreateWith(dir string, random io.Reader, stamp Stamp, opening []inventory.Draft) error {
	if len(opening) == 0 {
		return errEmpty
	}
	return found(realDisk(), dir, random, func(b *Book) error {
		_, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return opening, nil })
		return err
	})
}

// disk is what making a book needs of the system. Tests put one in its place that is
// cut off from its power.
type disk struct {
	sync   func(path string) error
	rename func(from, to string) error
}

func realDisk() disk { return disk{syncPath, unix.Rename} }

// found makes a book in a folder beside its place, lets fill put something in,
// waits until all is on disk, and only then moves it to its place.
func found(on disk, dir string, random io.Reader, fill func(*Book) error) (err error) {
	dir = filepath.Clean(dir)
	defer func() { err = unmade(dir, err) }()
	if err := checkFree(dir); err != nil {
		return err
	}
	making, err := makeFolder(dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, making.drop()) }()
	if err := build(making.path, random, fill); err != nil {
		return err
	}
	if err := on.syncAll(making.path); err != nil {
		return err
	}
	if err := on.rename(making.path, dir); err != nil {
		return &os.PathError{Op: "make a book at", Path: dir, Err: err}
	}
	return on.sync(filepath.Dir(dir))
}

// OccupiedError says that something is where a book was to be made.
type OccupiedError struct{ Dir string }

func (e *OccupiedError) Error() string {
	return e.Dir + " is there already and not an empty folder; name another folder, or open what is there"
}

func checkFree(dir string) error {
	info, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if !info.IsDir() {
		return &OccupiedError{dir}
	}
	inside, err := os.ReadDir(dir)
	if err == nil && len(inside) > 0 {
		return &OccupiedError{dir}
	}
	return err
}

// build makes the files and fills them, without waiting for the disk.
func build(dir string, random io.Reader, fill func(*Book) error) error {
	b, err := emptyBook(dir, random)
	if err == nil {
		err = fill(b)
	}
	if b != nil {
		err = errors.Join(err, b.Close())
	}
	return err
}

func emptyBook(dir string, random io.Reader) (*Book, error) {
	journalFile, err := os.OpenFile(filepath.Join(dir, journalName), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	b := &Book{dir: dir, journal: &journal{unsyncedFile{journalFile}, journalFile.Name(), 0}}
	mark, err := machineMark(dir)
	if err != nil {
		return b, err
	}
	writer, err := newWriter(random)
	if err != nil {
		return b, err
	}
	b.db, err = bbolt.Open(filepath.Join(dir, dbName), 0o600, &bbolt.Options{
		Timeout: dbPatience, FreelistType: bbolt.FreelistMapType, NoStatistics: true, NoSync: true, NoGrowSync: true,
	})
	if err != nil {
		return b, err
	}
	first := head{Format: format, Fold: inventory.FoldVersion, Writer: writer, Machine: mark}
	return b, b.db.Update(func(tx *bbolt.Tx) error { return createBuckets(tx, &first) })
}

// unsyncedFile leaves syncing to whoever makes the book.
type unsyncedFile struct{ *os.File }

func (unsyncedFile) Sync() error { return nil }

// syncAll waits until a folder and everything in it are on disk.
func (on disk) syncAll(dir string) error {
	return filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		return errors.Join(err, on.sync(path))
	})
}

func syncPath(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// createBuckets makes an empty book.db ready.
func createBuckets(tx *bbolt.Tx, h *head) error {
	for _, name := range bucketNames() {
		if _, err := tx.CreateBucket([]byte(name)); err != nil {
			return err
		}
	}
	value, err := h.encode()
	if err != nil {
		return err
	}
	return tx.Bucket([]byte(bookBucket)).Put(headKey(), seal(headKey(), value))
}
