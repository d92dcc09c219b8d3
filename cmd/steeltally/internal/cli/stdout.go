package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// heard is standard output, with whether everything got there.
type heard struct {
	io.Writer
	err error // the first one
}

func (h *heard) Write(text []byte) (int, error) {
	n, err := h.Writer.Write(text)
	if err != nil && h.err == nil {
		h.err = err
	}
	return n, err
}

// unheardError says that what was to be said did not get out.
type unheardError struct {
	cause  error
	stands string // what was done all the same; empty: nothing
}

func (e *unheardError) Error() string {
	cause := e.cause
	if system := new(fs.PathError); errors.As(cause, &system) {
		cause = system.Err
	}
	return fmt.Sprintf("standard output can't be written: %v", cause)
}

func (e *unheardError) Unwrap() error { return e.cause }

func (e *unheardError) hint() string {
	if e.stands != "" {
		return e.stands
	}
	return "make room there, or let it go somewhere else"
}

// stands keeps what was done last, to say it where nothing else gets out.
func (v *voice) stands(what string) { v.standing.Store(what) }

// allHeard is why some of what was said did not get out; nil where all of it did.
func (v *voice) allHeard(out *heard) error {
	if out.err == nil {
		return nil
	}
	stands, _ := v.standing.Load().(string)
	return &unheardError{out.err, stands}
}
