package book

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"steeltally/inventory"
)

// A backup is one zip file: the journal in fold order, everything else that is in the
// folder, and last what must be in it.

const manifestName = "manifest.json"

// manifest says what a backup must have.
type manifest struct {
	Format int   `json:"format"`
	Events int   `json:"events"`
	Lines  tally `json:"lines_tally"`
	Gaps   []gap `json:"gaps,omitempty"`
}

// Backup writes the book to one file, and puts that in its place only when it is on
// disk and was read again; until then an older backup there stays. Anything else that is
// there is refused. It can be taken while others record.
func (b *Book) Backup(path string) (events uint64, err error) {
	place, err := b.placeFor(path)
	if err != nil {
		return 0, err
	}
	defer func() { err = unmade(path, err) }()
	f, err := makeFile(place.path)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, f.drop()) }()
	if err := errors.Join(b.writeBackup(f), f.Sync()); err != nil {
		return 0, err
	}
	said, err := checkBackup(f.path)
	if err != nil {
		return 0, err
	}
	if err := place.unchanged(); err != nil {
		return 0, err
	}
	if err := os.Rename(f.path, place.path); err != nil {
		return 0, err
	}
	return uint64(said.Events), syncPath(filepath.Dir(place.path))
}

func (b *Book) writeBackup(f io.Writer) error {
	pack := zip.NewWriter(f)
	var said manifest
	err := b.reading(func(r *reading) error {
		said = manifest{format, int(r.head.Events), r.head.Lines, r.head.Gaps}
		out, err := pack.Create(journalName)
		if err != nil {
			return err
		}
		return r.export(out)
	})
	if err != nil {
		return err
	}
	if err := packOthers(pack, b.dir); err != nil {
		return err
	}
	out, err := pack.Create(manifestName)
	if err != nil {
		return err
	}
	return errors.Join(json.NewEncoder(out).Encode(said), pack.Close())
}

// others lists the files of a book's folder that are no part of the record itself.
func others(dir string) ([]string, error) {
	var names []string
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name != "." && strings.HasPrefix(name, ".") && entry.IsDir():
			return fs.SkipDir // left by something that was cut off
		case strings.HasPrefix(name, asFoundName), name == mendingName:
			return nil // what the journal was before it was mended
		case isMaking(entry.Name()):
			return nil
		case entry.Type().IsRegular() && !slices.Contains([]string{journalName, dbName, lockName, turnName}, name):
			names = append(names, name)
		}
		return nil
	})
	return names, err
}

func packOthers(pack *zip.Writer, dir string) error {
	names, err := others(dir)
	if err != nil {
		return err
	}
	for _, name := range names {
		f, err := os.Open(filepath.Join(dir, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		out, err := pack.Create(name)
		if err == nil {
			_, err = io.Copy(out, f)
		}
		if err := errors.Join(err, f.Close()); err != nil {
			return err
		}
	}
	return nil
}

// What a packed file can come to. Journals shrink to a tenth, measured; a file of
// blanks that is small does no harm.
const (
	mostInflated   = 50
	alwaysUnpacked = 1 << 20
)

// openBackup opens a backup, unless its files promise more than a record can come to.
// What a file then unpacks to beyond its promise is an error when it is read.
func openBackup(path string) (*zip.ReadCloser, error) {
	pack, err := zip.OpenReader(path)
	if err != nil {
		return nil, &BackupError{err.Error()}
	}
	if err := checkPromises(pack, path); err != nil {
		pack.Close()
		return nil, err
	}
	return pack, nil
}

// checkPromises also refuses files that lie over each other.
func checkPromises(pack *zip.ReadCloser, path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	left := uint64(info.Size())
	for _, packed := range pack.File {
		if packed.UncompressedSize64 > alwaysUnpacked && packed.UncompressedSize64/mostInflated > packed.CompressedSize64 {
			return &BackupError{fmt.Sprintf("%s would unpack from %d kB to %d MB, which no record does", packed.Name, packed.CompressedSize64>>10, packed.UncompressedSize64>>20)}
		}
		if packed.CompressedSize64 > left {
			return &BackupError{"its files would be larger than it is"}
		}
		left -= packed.CompressedSize64
	}
	return nil
}

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
		return backupPlace{}, inventory.Refuse(fmt.Sprintf("%s leads nowhere", path), nameAnother)
	}
	if err := CheckOutside(real); err != nil {
		return backupPlace{}, err
	}
	info, err := os.Stat(real)
	if err != nil {
		return backupPlace{}, err
	}
	if !info.Mode().IsRegular() {
		return backupPlace{}, inventory.Refuse(fmt.Sprintf("%s is no file, and a backup is read again after it was written", path), nameAnother)
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
		return inventory.Refuse(fmt.Sprintf("%s is there already and not a whole backup (%s); it stays as it is", path, broken.What), nameAnother)
	case errors.As(err, &newer):
		return inventory.Refuse(fmt.Sprintf("a newer version of this program made %s; it stays as it is", path), nameAnother)
	case err != nil:
		return err
	case known == 0:
		return inventory.Refuse(fmt.Sprintf("%s is the backup of another book: none of its %d entries is in this one; it stays as it is", path, lacking), nameAnother)
	case lacking > 0:
		return inventory.Refuse(fmt.Sprintf("%s holds entries that this book lacks (%d); it stays as it is", path, lacking),
			"name another file, or take them in first with steeltally merge "+path)
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
	return inventory.Refuse(fmt.Sprintf("%s was changed by another program while the backup was made; it stays as it is", p.path), "take it again")
}
