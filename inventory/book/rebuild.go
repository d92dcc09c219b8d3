package book

import (
	"archive/zip"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// Rebuild is RebuildWith without options but the program's name.
func Rebuild(into, from, program string) (Rebuilt, error) {
	return RebuildWith(into, from, Options{Program: program})
}

// RebuildWith makes a book at into from what is intact of a book's folder, or from a
// backup, or from a file of lines such as export writes. It changes nothing at from.
// The path into must not exist, or be an empty folder. The new book has a new writer.
func RebuildWith(into, from string, options Options) (Rebuilt, error) {
	report := Rebuilt{Lost: []string{}}
	isDir, err := folderOrFile(from)
	switch {
	case err != nil:
	case isDir:
		err = rebuildFromDir(into, from, options, &report)
	default:
		err = found(realDisk(), into, options.Random, func(b *Book) error {
			b.options = options
			s, err := b.unpack(from)
			return loadAll(b, s, err, &report)
		})
	}
	return report, err
}

// folderOrFile tells which of the two a path is; what is neither, such as a device,
// might never end.
func folderOrFile(path string) (isDir bool, err error) {
	info, err := os.Stat(path)
	if err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		err = &os.PathError{Op: "read", Path: path, Err: errors.New("it is neither a folder nor a file")}
	}
	return err == nil && info.IsDir(), err
}

func rebuildFromDir(into, from string, options Options, report *Rebuilt) (err error) {
	if err := look(from); err != nil && !new(Report).isDamage(err) {
		return err
	}
	l, err := takeLock(from, options.Program, true)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	return found(realDisk(), into, options.Random, func(b *Book) error {
		b.options = options
		if err := copyOthers(b.dir, from); err != nil {
			return err
		}
		s, err := salvageDir(from)
		if err == nil {
			err = s.checkOneClub(from)
		}
		return loadAll(b, s, err, report)
	})
}

func loadAll(b *Book, s *salvage, err error, report *Rebuilt) error {
	if err == nil {
		report.BadLines = s.badLines
		l := loader{book: b, from: s, report: report}
		err = l.all()
	}
	return errors.Join(err, s.close())
}

func copyOthers(into, from string) error {
	names, err := others(from)
	if err != nil {
		return err
	}
	for _, name := range names {
		f, err := os.Open(filepath.Join(from, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		if err := errors.Join(placeFile(into, name, f), f.Close()); err != nil {
			return err
		}
	}
	return nil
}

// placeFile writes one file of a book's folder; a name that leads out of it is refused.
func placeFile(dir, name string, data io.Reader) error {
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return &BackupError{"it names a file outside of the book: " + name}
	}
	path := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, data)
	return errors.Join(err, f.Sync(), f.Close())
}

// unpack makes a backup's lines ready to be loaded; any other file is read as lines.
func (b *Book) unpack(path string) (*salvage, error) {
	_, err := checkBackup(path)
	var broken *BackupError
	if errors.As(err, &broken) && !isZip(path) {
		return salvageFile(path)
	}
	if err != nil {
		return &salvage{}, err
	}
	pack, err := openBackup(path)
	if err != nil {
		return &salvage{}, err
	}
	defer pack.Close()
	return b.unpackAll(pack)
}

const unpackedName = "journal.unpacked"

func (b *Book) unpackAll(pack *zip.ReadCloser) (*salvage, error) {
	for _, packed := range pack.File {
		name := packed.Name
		switch {
		case name == journalName:
			name = unpackedName
		case name == manifestName, strings.HasSuffix(name, "/"), name == dbName, name == lockName, name == turnName:
			continue
		}
		if err := drain(packed, func(r io.Reader) error { return placeFile(b.dir, name, r) }); err != nil {
			return &salvage{}, err
		}
	}
	s, err := salvageFile(filepath.Join(b.dir, unpackedName))
	return s, errors.Join(err, os.Remove(filepath.Join(b.dir, unpackedName)))
}

// unpackJournal makes the lines of a backup ready to be read in a folder.
func unpackJournal(path, folder string) (*salvage, error) {
	pack, err := openBackup(path)
	if err != nil {
		return &salvage{}, err
	}
	defer pack.Close()
	for _, packed := range pack.File {
		if packed.Name != journalName {
			continue
		}
		err := drain(packed, func(r io.Reader) error { return placeFile(folder, unpackedName, r) })
		if err != nil {
			return &salvage{}, err
		}
	}
	return salvageFile(filepath.Join(folder, unpackedName))
}

func isZip(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	start := make([]byte, 4)
	_, err = io.ReadFull(f, start)
	return err == nil && string(start) == "PK\x03\x04"
}
