package book

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// Open opens the book in a folder. It never makes one. What a crash left unfinished is
// finished or taken back; damage is a DamageError and changes nothing.
func Open(dir string, options Options) (*Book, error) {
	b, err := openBrought(dir, options)
	if err != nil {
		return nil, causeOf(dir, options.Program, err)
	}
	return b, nil
}

// openBrought opens a book to read after it was brought up, where it has to be.
func openBrought(dir string, options Options) (*Book, error) {
	b, err := openOnce(dir, options)
	if errors.Is(err, errNeedsWriter) {
		writing := options
		writing.ReadOnly = false
		if b, err = openOnce(dir, writing); cannotWrite(err) {
			return openBroughtUp(dir, options)
		}
		if err != nil {
			return nil, err
		}
		if err := b.Close(); err != nil {
			return nil, err
		}
		b, err = openOnce(dir, options)
	}
	return b, err
}

func openOnce(dir string, options Options) (*Book, error) {
	if err := look(dir); err != nil {
		return nil, err
	}
	b := &Book{dir: dir, options: options}
	if err := b.open(); err != nil {
		return nil, errors.Join(err, b.release())
	}
	return b, nil
}

func (b *Book) open() (err error) {
	if b.lock, err = takeLock(b.dir, b.options.Program, b.options.ReadOnly); err != nil {
		return err
	}
	if b.opened, err = statFiles(b.dir); err != nil {
		return err
	}
	if err = checkMended(b.dir); err != nil {
		return err
	}
	if !b.options.ReadOnly {
		clearLeft(b.dir)
	}
	if err = b.openFiles(); err != nil {
		return err
	}
	pages, err := inspectFile(filepath.Join(b.dir, dbName))
	if err != nil {
		return err
	}
	if b.db, b.shared.file, err = openDB(b.dir, b.options.ReadOnly); err != nil {
		return err
	}
	b.db.NoSync = b.options.faults != nil && b.options.faults.unsynced
	return b.catchUp(pages.both)
}

func (b *Book) openFiles() (err error) {
	if b.journal, err = openJournal(b.dir, b.options.ReadOnly); err != nil {
		return err
	}
	if faults := b.options.faults; faults != nil && faults.journal != nil {
		b.journal.file = faults.journal(b.journal.file)
	}
	return nil
}

// look tells whether there is a book, before anything is touched.
func look(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &AbsentError{dir, "the folder does not exist"}
	case err != nil:
		return err
	case !info.IsDir():
		return &AbsentError{dir, "it is a file, and a book is a folder"}
	}
	_, err = statFiles(dir)
	return err
}

// statFiles finds both files of a book. Without both there is no book; with one of
// them lost or empty the book is damaged.
func statFiles(dir string) (map[string]os.FileInfo, error) {
	files := map[string]os.FileInfo{}
	var damage error
	for _, name := range []string{journalName, dbName} {
		info, err := os.Stat(filepath.Join(dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			damage = &DamageError{name, "it is missing"}
		case err != nil:
			return nil, err
		case !info.Mode().IsRegular():
			damage = &DamageError{name, "it is not a file"}
		case info.Size() == 0:
			damage = &DamageError{name, "it is empty"}
		}
		if err == nil {
			files[name] = info
		}
	}
	if len(files) == 0 {
		return nil, &AbsentError{dir, "neither " + journalName + " nor " + dbName + " is in the folder"}
	}
	return files, damage
}

// mapBytes is how much of book.db is mapped at once. While it is larger than the file,
// a long look at the book, such as a backup, does not hold up who records.
const mapBytes = 1 << 30

// growBytes is by how much book.db grows at once.
const growBytes = 1 << 18

// dbPatience is short because our own lock is held: only a stranger can have the file.
const dbPatience = 50 * time.Millisecond

func openDB(dir string, readOnly bool) (db *bbolt.DB, file *os.File, err error) {
	err = guarded(neverCalling, func() (err error) {
		db, err = bbolt.Open(filepath.Join(dir, dbName), 0o600, &bbolt.Options{
			ReadOnly: readOnly, Timeout: dbPatience, FreelistType: bbolt.FreelistMapType, NoStatistics: true,
			InitialMmapSize: mapBytes,
			OpenFile: func(path string, flag int, mode os.FileMode) (_ *os.File, err error) {
				file, err = os.OpenFile(path, flag&^os.O_CREATE, mode)
				return file, err
			},
		})
		if err == nil {
			db.AllocSize = growBytes
		}
		return err
	})
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, nil, &InUseError{Dir: dir}
	case errors.Is(err, bolterrors.ErrInvalid), errors.Is(err, bolterrors.ErrChecksum), errors.Is(err, bolterrors.ErrVersionMismatch):
		return nil, nil, &DamageError{dbName, err.Error()}
	}
	return db, file, err
}
