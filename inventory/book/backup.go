package book

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
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
