package desk

import (
	"errors"
	"io"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// A file in the making is hidden beside its place, and locked by who makes it: one that
// nobody has locked was left by a kill, and is cleared by who writes there next.
const (
	unfinishedNew = ".steeltally-*.part" // for os.CreateTemp, and to know one by
	makingTries   = 3
)

// replace writes a file beside its place and moves it there when it is whole.
func replace(path string, write func(io.Writer) error) error {
	clearUnfinished(filepath.Dir(path))
	file, err := newUnfinished(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer os.Remove(file.Name()) // gone once it is renamed
	if err = write(file); err == nil {
		err = file.Sync()
	}
	if err == nil {
		err = os.Rename(file.Name(), path)
	}
	return errors.Join(err, file.Close())
}

// newUnfinished makes a file in the making. Another program may clear it between its
// making and its lock: then it is made again.
func newUnfinished(folder string) (*os.File, error) {
	for try := 1; ; try++ {
		file, err := os.CreateTemp(folder, unfinishedNew)
		if err != nil {
			return nil, err
		}
		locked := lock(file) // where files can't be locked, none is ever cleared
		there, err := os.Stat(file.Name())
		if made, madeErr := file.Stat(); err == nil && madeErr == nil && os.SameFile(there, made) {
			return file, nil
		}
		if file.Close(); try == makingTries {
			return nil, errors.Join(err, locked)
		}
	}
}

// clearUnfinished removes what a kill left in a folder.
func clearUnfinished(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return // then nothing can be written here either, which is said
	}
	for _, entry := range entries {
		if left, _ := filepath.Match(unfinishedNew, entry.Name()); left && entry.Type().IsRegular() {
			removeLeft(filepath.Join(folder, entry.Name()))
		}
	}
}

func removeLeft(path string) {
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return // another account's
	}
	defer file.Close()
	if lock(file) == nil {
		os.Remove(path)
	}
}

func lock(file *os.File) error { return unix.Flock(int(file.Fd()), unix.LOCK_EX|unix.LOCK_NB) }
