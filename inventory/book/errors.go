package book

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"
	"time"
)

// AbsentError says that there is no book where one was looked for.
type AbsentError struct{ Dir, Reason string }

func (e *AbsentError) Error() string {
	return fmt.Sprintf("there is no book at %s (%s)", e.Dir, e.Reason)
}

// DamageError says that what is stored is not what was written. Nothing was changed.
type DamageError struct{ File, What string }

func (e *DamageError) Error() string {
	return fmt.Sprintf("the book is damaged: %s: %s", e.File, e.What)
}

// MendableError says that another program rewrote the journal, and that this is all: Mend
// writes it as it was. It is a DamageError too.
type MendableError struct{ damage DamageError }

func (e *MendableError) Error() string { return e.damage.Error() }
func (e *MendableError) Unwrap() error { return &e.damage }

// InUseError names the program that has the book open.
type InUseError struct {
	Dir    string
	Holder Holder
}

func (e *InUseError) Error() string {
	return fmt.Sprintf("the book at %s is in use by %s; try again when it is done", e.Dir, e.Holder)
}

// NewerError says that a newer version of the program made the book.
type NewerError struct{ Format int }

func (e *NewerError) Error() string {
	return fmt.Sprintf("the book has format %d, this program knows up to %d: use the newer program", e.Format, format)
}

// UnknownError says that it is not known whether an action was recorded. The book has
// to be opened again; a retry with the same ticket then records it once.
type UnknownError struct{ Cause error }

func (e *UnknownError) Error() string {
	return fmt.Sprintf("it is not known whether this was recorded (%v); open the book again and look at the history, or give the same action with the same key again", e.Cause)
}

func (e *UnknownError) Unwrap() error { return e.Cause }

// FullError says that the disk has no room for another action. Nothing was recorded.
type FullError struct{ Dir string }

func (e *FullError) Error() string {
	return fmt.Sprintf("the disk that holds %s is full, and nothing was recorded: free some space and do it again", e.Dir)
}

// MovedError says that the files of an open book are no longer where they were.
type MovedError struct{ File string }

func (e *MovedError) Error() string {
	return fmt.Sprintf("%s was moved or replaced while the book was open, and nothing was recorded: put it back and open the book again", e.File)
}

// ErrNothingIntact says that a rebuild found no event at all.
var ErrNothingIntact = errors.New("not one event is intact in there: look for a backup, or scan the tags")

var (
	errReadOnly = errors.New("the book was opened for reading only")
	errClosed   = errors.New("the book is closed")
	errNobody   = errors.New("an action needs the time at which it is noted")
	errEmpty    = errors.New("a book begins with at least one event, its club")
)

// AmbiguousError lists the events that a typed number of an event can mean.
type AmbiguousError struct {
	Text string
	Keys []string
}

func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%q can be %s: write one of them", e.Text, strings.Join(e.Keys, " or "))
}

// UnknownEventError says that no event has the key that was asked for.
type UnknownEventError struct{ Text string }

func (e *UnknownEventError) Error() string {
	return fmt.Sprintf("there is no event %q in this book; history lists them, such as 812 or 812@c3a9", e.Text)
}

// Holder is a program that has a book open.
type Holder struct {
	Process int       `json:"process"`
	Program string    `json:"program"`
	Since   time.Time `json:"since"`
	Reads   bool      `json:"reads,omitempty"`
}

// String names the holder for a person.
func (h Holder) String() string {
	if h.Process == 0 {
		return "another program"
	}
	return fmt.Sprintf("%s (process %d, since %s)", h.Program, h.Process, h.Since.Local().Format("15:04:05"))
}

// guarded runs something that reads book.db. A damaged file makes bbolt panic or the
// memory map fault: that becomes a DamageError. A panic of the caller's own code
// stays one.
func guarded(calling func() bool, run func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if calling() {
			return
		}
		if p := recover(); p != nil {
			err = &DamageError{dbName, fmt.Sprintf("it cannot be read: %v", p)}
		}
	}()
	return run()
}

func neverCalling() bool { return false }
