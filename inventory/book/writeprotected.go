package book

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// cannotWrite tells whether an error says that a disk or a folder is for reading only.
func cannotWrite(err error) bool {
	return errors.Is(err, unix.EROFS) || errors.Is(err, fs.ErrPermission)
}

// openBroughtUp opens, for reading, a book that has to be brought up first and cannot be
// where it is: a copy of its two files is, without a name by the time it is read.
func openBroughtUp(dir string, options Options) (b *Book, err error) {
	copied, err := makeFolder(filepath.Join(os.TempDir(), "steeltally"))
	if err != nil {
		return nil, cannotBringUp(dir, err)
	}
	defer func() { err = errors.Join(err, copied.drop()) }()
	if err := copyRecord(copied.path, dir, options.Program); err != nil {
		return nil, cannotBringUp(dir, err)
	}
	options.ReadOnly, options.copied = false, true
	if b, err = openOnce(copied.path, options); err == nil {
		err = b.Close()
	}
	if err != nil {
		return nil, err
	}
	options.ReadOnly = true
	if b, err = openOnce(copied.path, options); err == nil {
		b.dir = dir
	}
	return b, err
}

func cannotBringUp(dir string, err error) error {
	return fmt.Errorf("%s in %s has to be brought up before it can be read, and there it cannot be: copy the folder to another disk and read that: %w", dbName, dir, err)
}

// copyRecord copies both files of a book while nobody writes them.
func copyRecord(into, from, program string) error {
	l, err := takeLock(from, program, true)
	if err != nil {
		return err
	}
	for _, name := range []string{journalName, dbName} {
		f, opened := os.Open(filepath.Join(from, name))
		if opened != nil {
			return errors.Join(opened, l.release())
		}
		err = errors.Join(err, placeFile(into, name, f), f.Close())
	}
	return errors.Join(err, l.release())
}
