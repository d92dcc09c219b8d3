package book

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"steeltally/inventory"
)

// backupPlace is where a backup shall be, and what is there.
type backupPlace struct {
	path string
	was  os.FileInfo // nil: nothing
}

const nameAnother = "name another file"

// placeFor finds the place of a backup. What is there may be replaced only where it is a
// whole backup, and this book has all that is in it.
func (b *Book) placeFor(path string) (backupPlace, error) {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return backupPlace{path, nil}, CheckOutside(path)
	}
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return backupPlace{}, inventory.Refuse(nameAnother, "%s leads nowhere", path)
	}
	if err := CheckOutside(real); err != nil {
		return backupPlace{}, err
	}
	info, err := os.Stat(real)
	if err != nil {
		return backupPlace{}, err
	}
	if !info.Mode().IsRegular() {
		return backupPlace{}, inventory.Refuse(nameAnother, "%s is no file, and a backup is read again after it was written", path)
	}
	return backupPlace{real, info}, b.checkOlder(path)
}

// checkOlder refuses to replace what is not an older backup of this book.
func (b *Book) checkOlder(path string) error {
	known, lacking := 0, 0
	err := b.reading(func(r *reading) error {
		_, err := checkBackupWith(path, func(line []byte) error {
			_, at, err := captionOf(line)
			if err == nil && bytes.Equal(r.line(at), line) {
				known++
			} else {
				lacking++
			}
			return nil
		})
		return err
	})
	var broken *BackupError
	var newer *NewerError
	switch {
	case errors.As(err, &broken):
		return inventory.Refuse(nameAnother, "%s is there already and not a whole backup (%s); it stays as it is", path, broken.What)
	case errors.As(err, &newer):
		return inventory.Refuse(nameAnother, "a newer version of this program made %s; it stays as it is", path)
	case err != nil:
		return err
	case known == 0:
		return inventory.Refuse(nameAnother, "%s is the backup of another book: none of its %d entries is in this one; it stays as it is", path, lacking)
	case lacking > 0:
		return inventory.Refuse("name another file, or take them in first with steeltally merge "+path,
			"%s holds entries that this book lacks (%d); it stays as it is", path, lacking)
	}
	return nil
}

// unchanged tells whether nobody else put something there meanwhile.
func (p backupPlace) unchanged() error {
	is, err := os.Lstat(p.path)
	switch {
	case p.was == nil && errors.Is(err, fs.ErrNotExist):
		return nil
	case p.was != nil && err == nil && os.SameFile(p.was, is) && is.Size() == p.was.Size() && is.ModTime().Equal(p.was.ModTime()):
		return nil
	}
	return inventory.Refuse("take it again", "%s was changed by another program while the backup was made; it stays as it is", p.path)
}
