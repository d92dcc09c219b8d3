package book

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"time"

	"golang.org/x/sys/unix"
)

const (
	lockPatience = 500 * time.Millisecond
	lockPause    = 10 * time.Millisecond
)

// lock keeps others out of a book: one program writes, or several read. The system
// lets go of it when its process ends, however that happens.
type lock struct {
	file  *os.File
	turn  *os.File // who waits for the book holds it, so that nobody gets in before him
	reads bool
}

// takeLock waits up to half a second: first for being the next one, then for the book.
// The program's name is for others to read.
func takeLock(dir, program string, reads bool) (*lock, error) {
	l := &lock{reads: reads}
	var err error
	if l.file, err = openLock(dir, lockName, reads); err != nil {
		return nil, err
	}
	if l.turn, err = openLock(dir, turnName, reads); err != nil {
		return nil, errors.Join(err, l.close())
	}
	if err := l.wait(dir); err != nil {
		return nil, errors.Join(err, l.close())
	}
	l.sign(program)
	return l, nil
}

// openLock opens a file that is locked. A reader needs no right to write it; where it is
// not there and cannot be made, nobody ever wrote the book in there, and it is nil.
func openLock(dir, name string, reads bool) (*os.File, error) {
	path := filepath.Join(dir, name)
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if !reads || !cannotWrite(err) {
		return f, err
	}
	f, err = os.Open(path)
	return f, skipMissing(err)
}

// wait takes the turn, with it the book, and lets go of the turn.
func (l *lock) wait(dir string) error {
	how := unix.LOCK_EX
	if l.reads {
		how = unix.LOCK_SH
	}
	next := false
	for waited := time.Duration(0); ; waited += lockPause {
		err := error(nil)
		if !next {
			next, err = tryLock(l.turn, unix.LOCK_EX)
		}
		got := false
		if next && err == nil {
			got, err = tryLock(l.file, how)
		}
		switch {
		case err != nil:
			return err
		case got:
			return unlock(l.turn)
		case waited >= lockPatience:
			return &InUseError{dir, holderIn(l.file)}
		}
		time.Sleep(lockPause)
	}
}

// tryLock takes a lock where it is free.
func tryLock(f *os.File, how int) (bool, error) {
	if f == nil {
		return true, nil
	}
	err := unix.Flock(int(f.Fd()), how|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) || errors.Is(err, unix.EINTR) {
		return false, nil
	}
	return err == nil, err
}

func unlock(f *os.File) error {
	if f == nil {
		return nil
	}
	return unix.Flock(int(f.Fd()), unix.LOCK_UN)
}

// wanted tells whether another program waits for the book.
func (l *lock) wanted() bool {
	free, err := tryLock(l.turn, unix.LOCK_SH)
	if free {
		err = unlock(l.turn)
	}
	return !free && err == nil
}

// sign writes who has the lock. It is for people: an error is no reason to stop.
func (l *lock) sign(program string) {
	if program == "" {
		program = filepath.Base(os.Args[0])
	}
	text, err := json.Marshal(Holder{Process: os.Getpid(), Program: program, Reads: l.reads})
	if err == nil && l.file.Truncate(0) == nil {
		_, _ = l.file.WriteAt(text, 0)
	}
}

// holderIn reads who has the lock; a reader that is gone may have signed last.
func holderIn(f *os.File) Holder {
	var h Holder
	text := make([]byte, 4096)
	n, _ := f.ReadAt(text, 0)
	info, err := f.Stat()
	if json.Unmarshal(text[:n], &h) != nil || err != nil || h.Process <= 0 {
		return Holder{}
	}
	if errors.Is(unix.Kill(h.Process, 0), unix.ESRCH) {
		return Holder{}
	}
	h.Since = info.ModTime()
	return h
}

// release lets others in.
func (l *lock) release() error {
	if !l.reads {
		_ = l.file.Truncate(0)
	}
	return l.close()
}

func (l *lock) close() error {
	var errs []error
	for _, f := range []*os.File{l.turn, l.file} {
		if f != nil {
			errs = append(errs, f.Close())
		}
	}
	return errors.Join(errs...)
}
