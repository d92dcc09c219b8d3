package desk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// StandardStream stands for standard output where a file to write is asked for, and for
// standard input where one to read is.
const StandardStream = "-"

// outlet is where a file that was asked for goes.
type outlet struct {
	path   string
	stdout io.Writer // what "-" stands for
	stands func(what string)
}

// outlet is where a file of this run of the program goes.
func (o Options) outlet(path string) outlet { return outlet{path, o.Stdout, o.Stands} }

// writeWhole writes a file, which is there whole or not at all.
func writeWhole(path string, write func(io.Writer) error) error {
	return outlet{path: path}.write(write)
}

// write writes to a file whole or not at all, through a link to what it points to; to
// standard output, a device or a pipe as it comes.
func (o outlet) write(write func(io.Writer) error) error {
	if o.path == StandardStream && o.stdout != nil {
		return unwritten("standard output", write(o.stdout))
	}
	path, stream, err := placeOf(o.path)
	if err != nil {
		return err
	}
	if stream {
		return unwritten(o.path, writeInto(path, write))
	}
	for _, name := range []string{o.path, path} {
		if err := book.CheckOutside(name); err != nil {
			return err
		}
	}
	err = unwritten(o.path, book.WriteWhole(path, write))
	if err == nil && o.stands != nil {
		o.stands(o.path + " is written")
	}
	return err
}

// placeOf finds what a path to be written leads to, and whether that takes bytes as they
// come and must not be replaced.
func placeOf(path string) (place string, stream bool, err error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return path, false, checkNew(path)
	}
	switch {
	case err != nil:
		return "", false, unwritten(path, err)
	case info.IsDir():
		return "", false, &inventory.BadValue{Reason: path + " is a folder", Hint: "name a file in it, such as " + filepath.Join(path, "NAME")}
	case !info.Mode().IsRegular() || ofSystem(path):
		return path, true, nil
	}
	place, err = filepath.EvalSymlinks(path)
	return place, false, unwritten(path, err)
}

// ofSystem tells a path that leads to what the program has open, such as /dev/stderr: that
// may be a file, which is written to and not replaced. In /dev/shm files lie as anywhere.
func ofSystem(path string) bool {
	full, err := filepath.Abs(path)
	return err == nil && (strings.HasPrefix(full, "/dev/") && !strings.HasPrefix(full, "/dev/shm/") || strings.HasPrefix(full, "/proc/"))
}

// checkNew says why no file can be made at a path where there is none.
func checkNew(path string) error {
	if target, err := os.Readlink(path); err == nil {
		return &inventory.BadValue{Reason: fmt.Sprintf("%s is a link to %s, which is not there", path, target), Hint: "name the file itself, or remove the link"}
	}
	folder := filepath.Dir(path)
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return &inventory.BadValue{Reason: "there is no folder " + folder, Hint: "make it, or name another one"}
	}
	return nil
}

// writeInto writes to what is there and stays.
func writeInto(path string, write func(io.Writer) error) error {
	file, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(write(file), file.Close())
}

// unwritten says of a file that it can't be written, in the words of what was asked for.
func unwritten(path string, err error) error {
	var system *fs.PathError
	if !errors.As(err, &system) {
		return err
	}
	return fmt.Errorf("%s can't be written: %w", path, system.Err)
}

// LowRoom warns, once while the book is open, that the disk it is on is all but full:
// less than 200 MB are free. Where that cannot be told it says nothing.
func (d *Desk) LowRoom() []inventory.Notice {
	room := d.options.Room
	if room == nil {
		room = book.Room
	}
	free, err := room(d.options.Book)
	if err != nil || free >= book.LowRoom || d.warned.Swap(true) {
		return nil
	}
	return []inventory.Notice{{
		Text: fmt.Sprintf("only %d MB are free on the disk that the book is on", free/1_000_000),
		Hint: "make room soon: on a full disk nothing more can be recorded",
	}}
}

// told says, once while the book is open, what was found when it was opened, and where this
// machine can't keep how far it has come.
func (d *Desk) told() []inventory.Notice {
	var notices []inventory.Notice
	d.telling.Do(func() {
		notices = d.toTell
		if err := d.book.Unmarked(); err != nil {
			notices = append(notices, inventory.Notice{
				Text: fmt.Sprintf("this machine can't keep how far the book has come (%v): if its folder is put back to an older copy, nobody will notice", err),
				Hint: "make the folder with this machine's settings yours to write",
			})
		}
	})
	return append(notices, d.LowRoom()...)
}
