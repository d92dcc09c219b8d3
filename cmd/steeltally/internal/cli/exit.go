package cli

import (
	"errors"
	"fmt"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/book"
)

// The exit codes.
const (
	exitDone    = 0
	exitFailed  = 1
	exitUsage   = 2 // the command line is wrong
	exitRefused = 3 // the record does not allow it, or does not know it
	exitNoTag   = 4 // recorded, but not printed
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
	var (
		damaged   *book.DamageError
		inUse     *book.InUseError
		print     *desk.PrintError
		bad       *inventory.BadValue
		notNumber *inventory.NotANumber
		usage     *usageError
	)
	switch {
	case errors.As(err, &damaged):
		return exitDamaged
	case errors.As(err, &inUse):
		return exitInUse
	case errors.As(err, &print):
		return exitNoTag
	case errors.As(err, &bad), errors.As(err, &notNumber), errors.As(err, &usage), isCobraUsage(err):
		return exitUsage
	case isRefusal(err):
		return exitRefused
	}
	return exitFailed
}

// isRefusal tells whether the record does not allow something or does not know it.
func isRefusal(err error) bool {
	var (
		refusal   *inventory.Refusal
		ambiguous *inventory.Ambiguous
		absent    *book.AbsentError
		occupied  *book.OccupiedError
		entry     *book.UnknownEventError
		entries   *book.AmbiguousError
	)
	return errors.As(err, &refusal) || errors.As(err, &ambiguous) || errors.As(err, &absent) ||
		errors.As(err, &occupied) || errors.As(err, &entry) || errors.As(err, &entries)
}

// isCobraUsage knows the errors of the command library that have no type.
func isCobraUsage(err error) bool {
	text := err.Error()
	for _, start := range []string{"unknown command", "accepts ", "requires at least", "required flag", "unknown flag", "invalid argument", "if any flags in the group", "at least one of the flags"} {
		if strings.HasPrefix(text, start) {
			return true
		}
	}
	return false
}

// hintOf says what to do next.
func hintOf(err error) string {
	var (
		refusal   *inventory.Refusal
		bad       *inventory.BadValue
		ambiguous *inventory.Ambiguous
		print     *desk.PrintError
		damaged   *book.DamageError
		absent    *book.AbsentError
	)
	switch {
	case errors.As(err, &refusal):
		return refusal.Hint
	case errors.As(err, &bad):
		return bad.Hint
	case errors.As(err, &ambiguous):
		return "say which one by number, such as " + ambiguous.Members[0].Player.Short()
	case errors.As(err, &print):
		return "what was done is recorded; print again with " + print.Reprint
	case errors.As(err, &damaged):
		return "nothing was changed; keep the folder as it is and look with steeltally verify"
	case errors.As(err, &absent):
		return "make one with steeltally init, or name another folder with --book"
	case codeOf(err) == exitUsage:
		return "steeltally help shows how; add the verb for its own page: steeltally help grind"
	}
	return ""
}
