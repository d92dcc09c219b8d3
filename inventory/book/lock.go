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
	reads bool
}

// takeLock waits up to half a second. The program's name is for others to read.
func takeLock(dir, program string, reads bool) (*lock, error) {
	f, err := os.OpenFile(filepath.Join(dir, lockName), os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	how := unix.LOCK_EX
	if reads {
		how = unix.LOCK_SH
	}
	for waited := time.Duration(0); ; waited += lockPause {
		err := unix.Flock(int(f.Fd()), how|unix.LOCK_NB)
		if err == nil {
			l := &lock{f, reads}
			l.sign(program)
			return l, nil
		}
		if !errors.Is(err, unix.EWOULDBLOCK) && !errors.Is(err, unix.EINTR) {
			return nil, errors.Join(err, f.Close())
		}
		if waited >= lockPatience {
			return nil, errors.Join(&InUseError{dir, holderIn(f)}, f.Close())
		}
		time.Sleep(lockPause)
	}
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
	return l.file.Close()
}
