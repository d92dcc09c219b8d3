package cli

import (
	"errors"
	"fmt"

	"steeltally/cmd/steeltally/internal/desk"
)

// The exit codes.
const (
	exitDone    = 0
	exitFailed  = 1
	exitUsage   = 2 // the command line is wrong
	exitRefused = 3 // the record does not allow it, or does not know it
	exitNoTag   = 4 // recorded, but not printed or not told
	exitDamaged = 5 // the book is damaged
	exitInUse   = 6 // the book is in use
)

// usageError is a command line that can't be understood.
type usageError struct{ cause error }

func (e *usageError) Error() string { return e.cause.Error() }
func (e *usageError) Unwrap() error { return e.cause }

func usage(format string, args ...any) error { return &usageError{fmt.Errorf(format, args...)} }

// codeOf is the exit code of an error.
func codeOf(err error) int {
	switch desk.FailureOf(err) {
	case desk.Damaged:
		return exitDamaged
	case desk.InUse:
		return exitInUse
	case desk.Unprinted:
		return exitNoTag
	case desk.Mistyped:
		return exitUsage
	case desk.Refused:
		return exitRefused
	}
	if isUsage(err) {
		return exitUsage
	}
	if unheard := new(unheardError); errors.As(err, &unheard) && unheard.stands != "" {
		return exitNoTag
	}
	return exitFailed
}

func isUsage(err error) bool {
	var usage *usageError
	return errors.As(err, &usage)
}

// hintOf says what to do next.
func hintOf(err error) string {
	var helped *helpedError
	if errors.As(err, &helped) {
		return helped.hint
	}
	if unheard := new(unheardError); errors.As(err, &unheard) {
		return unheard.hint()
	}
	return desk.HintOf(err)
}
