package book

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/sys/unix"
)

// What is made beside its place has a hidden name until it is whole, and is held by who
// makes it. So what a program left that was killed is known: nobody holds it.

const (
	makingMark = ".making-"
	makingName = ".steeltally" + makingMark // as long whatever is made
)

// WriteWhole writes a file beside its place, and moves it there when it is whole.
func WriteWhole(path string, write func(io.Writer) error) (err error) {
	m, err := makeFile(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, m.drop()) }()
	if err := write(m.File); err != nil {
		return err
	}
	if err := m.Sync(); err != nil {
		return err
	}
	return os.Rename(m.path, path)
}

// UnmadeError says that what was asked for can't be made where it shall be.
type UnmadeError struct {
	Path  string
	Cause error
}

func (e *UnmadeError) Error() string { return fmt.Sprintf("%s can't be written: %v", e.Path, e.Cause) }

// Unwrap gives the system's own error.
func (e *UnmadeError) Unwrap() error { return e.Cause }

// unmade names the place that was asked for where an error names the one in the making.
func unmade(path string, err error) error {
	var system *fs.PathError
	if !errors.As(err, &system) || !slices.ContainsFunc(strings.Split(system.Path, string(filepath.Separator)), isMaking) {
		return err
	}
	return &UnmadeError{path, system.Err}
}

// making is a file or a folder in the making.
type making struct {
	*os.File
	path string
}

// makeFile begins a file beside its place.
func makeFile(path string) (*making, error) {
	return beginMaking(path, func(folder, pattern string) (string, error) {
		f, err := os.CreateTemp(folder, pattern)
		if err != nil {
			return "", err
		}
		return f.Name(), f.Close()
	}, os.O_RDWR)
}

// makeFolder begins a folder beside its place.
func makeFolder(path string) (*making, error) { return beginMaking(path, os.MkdirTemp, os.O_RDONLY) }

func beginMaking(path string, begin func(folder, pattern string) (string, error), flag int) (*making, error) {
	folder := filepath.Dir(path)
	clearLeft(folder)
	for {
		name, err := begin(folder, makingName)
		if err != nil {
			return nil, err
		}
		f, err := os.OpenFile(name, flag, 0)
		if errors.Is(err, fs.ErrNotExist) {
			continue // another program cleared it away before it was held
		}
		if err != nil {
			return nil, err
		}
		m := &making{f, name}
		if held, err := m.hold(); err != nil || held {
			return m, err
		}
		_ = f.Close() // nothing was written
	}
}

// hold tells others that it is in the making; false where one of them cleared it away.
// Where files can't be locked, none is ever cleared.
func (m *making) hold() (bool, error) {
	_ = unix.Flock(int(m.Fd()), unix.LOCK_EX)
	is, err := os.Stat(m.path)
	if err != nil {
		return false, skipMissing(err)
	}
	was, err := m.Stat()
	return err == nil && os.SameFile(is, was), err
}

// drop clears away what is still under the hidden name.
func (m *making) drop() error { return errors.Join(os.RemoveAll(m.path), skipClosed(m.Close())) }

func skipClosed(err error) error {
	if errors.Is(err, fs.ErrClosed) {
		return nil
	}
	return err
}

// clearLeft clears away what programs left in a folder that were killed while they made
// something. What cannot be cleared is no reason to stop.
func clearLeft(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, entry := range entries {
		if isMaking(entry.Name()) {
			clearIfLeft(filepath.Join(folder, entry.Name()))
		}
	}
}

// isMaking tells the name of something in the making.
func isMaking(name string) bool {
	at := strings.LastIndex(name, makingMark)
	return at > 1 && name[0] == '.' && len(name) > at+len(makingMark) && strings.Trim(name[at+len(makingMark):], "0123456789") == ""
}

func clearIfLeft(path string) {
	f, err := os.OpenFile(path, os.O_RDONLY|unix.O_NONBLOCK|unix.O_NOFOLLOW, 0)
	if err != nil {
		return
	}
	defer f.Close()
	if unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB) == nil {
		_ = os.RemoveAll(path)
	}
}

const (
	// leastRoom is what an action with its index needs on the disk, generously.
	leastRoom = 1 << 20
	// LowRoom is how many free bytes are so few that a person should be told.
	LowRoom = 200_000_000
)

// Room is how many bytes are free on the disk that a book is on.
func Room(dir string) (uint64, error) {
	var disk unix.Statfs_t
	if err := unix.Statfs(dir, &disk); err != nil {
		return 0, err
	}
	return disk.Bavail * uint64(disk.Bsize), nil
}

// roomFor stops an action early where the disk is all but full.
func (b *Book) roomFor(bytes int) error {
	free, err := Room(b.dir)
	if err != nil || free >= uint64(leastRoom+4*bytes) {
		return nil // where it cannot be told, the write will
	}
	return &FullError{b.dir}
}

// InsideError says that a file was to be written where a book's own files lie.
type InsideError struct{ Path string }

func (e *InsideError) Error() string {
	return e.Path + " is among a book's own files; write it somewhere else, best on another disk"
}

// CheckOutside refuses a path for a new file that lies beside a book's own files, one
// of which it might replace.
func CheckOutside(path string) error {
	for _, name := range []string{journalName, dbName} {
		if _, err := os.Stat(filepath.Join(filepath.Dir(path), name)); err == nil {
			return &InsideError{path}
		}
	}
	return nil
}
