package desk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/labels/spool"
)

// faultsName is the file beside this machine's settings that keeps what finds the faults
// of this program; it never grows beyond mostFaults bytes.
const (
	faultsName = "faults.txt"
	mostFaults = 1 << 20
)

// FaultError is a fault of this program that was caught, with where it is kept.
type FaultError struct {
	Cause error
	Kept  string // the file; empty: it could not be kept
}

func (e *FaultError) Error() string { return e.Cause.Error() }
func (e *FaultError) Unwrap() error { return e.Cause }

func (e *FaultError) hint() string {
	hint := "what was recorded before stands, nothing was recorded after it: steeltally history shows it"
	if e.Kept != "" {
		hint += "; what finds the fault is in " + e.Kept
	}
	return hint
}

// KeepFault keeps what is needed to find a fault of this program, where an error is one;
// any other error stays as it is. Doing is what was asked for.
func KeepFault(o Options, doing string, err error) error {
	var defect *inventory.Defect
	if !errors.As(err, &defect) || isA[*FaultError](err) {
		return err
	}
	fault := &FaultError{Cause: err}
	failed := inventory.Guard(func() (err error) {
		fault.Kept, err = o.keepFault(doing, defect)
		return err
	})
	if failed != nil {
		fault.Kept = ""
	}
	return fault
}

// keepFault adds a fault to the file, unless it is there already.
func (o Options) keepFault(doing string, defect *inventory.Defect) (file string, err error) {
	if o.Machine == "" {
		return "", nil
	}
	file = filepath.Join(filepath.Dir(o.Machine), faultsName)
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return "", err
	}
	before, err := os.ReadFile(file)
	if err == nil && strings.Contains(string(before), defect.Trail) {
		return file, nil
	}
	mode := os.O_APPEND
	if len(before) > mostFaults {
		mode = os.O_TRUNC
	}
	kept, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|mode, 0o600)
	if err != nil {
		return "", err
	}
	_, err = fmt.Fprintf(kept, "%s, %s: %s\n%s\n%s\n\n", o.Now().UTC().Format(time.RFC3339), version(), doing, defect.Cause, defect.Trail)
	return file, errors.Join(err, kept.Close())
}

// version names the program's state, as the builder noted it.
func version() string {
	if build, ok := debug.ReadBuildInfo(); ok {
		for _, setting := range build.Settings {
			if setting.Key == "vcs.revision" {
				return "commit " + setting.Value
			}
		}
	}
	return "commit not known"
}

// keepUnworked keeps the faults because of which some could not be worked out.
func (o Options) keepUnworked(doing string, list []inventory.Unworked) {
	for i := range list {
		list[i].Cause = KeepFault(o, doing+" of "+list[i].Whose(), list[i].Cause)
	}
}

// keepOne is keepUnworked for one, where there is one.
func (d *Desk) keepOne(doing string, one *inventory.Unworked) {
	if one != nil {
		one.Cause = KeepFault(d.options, doing+" of "+one.Whose(), one.Cause)
	}
}

// UnworkedHint is what can be done about something that could not be worked out.
func UnworkedHint(u inventory.Unworked) string {
	var fault *FaultError
	if errors.As(u.Cause, &fault) && fault.Kept != "" {
		return u.Hint() + "; what finds the fault is in " + fault.Kept
	}
	return u.Hint()
}

// Failure is the sort of thing that went wrong.
type Failure int

// The sorts of failure.
const (
	Failed    Failure = iota // anything else: a disk, a file, a bug
	Mistyped                 // a value that can't be right whatever the record says
	Refused                  // the record does not allow it, or does not know it
	Unprinted                // recorded, but not printed
	Damaged                  // the book is damaged
	InUse                    // the book is in use
)

// FailureOf tells which sort of failure an error is.
func FailureOf(err error) Failure {
	switch {
	case isA[*book.DamageError](err):
		return Damaged
	case isA[*book.InUseError](err):
		return InUse
	case isA[*PrintError](err):
		return Unprinted
	case isA[*inventory.BadValue](err), isA[*inventory.NotANumber](err):
		return Mistyped
	case isA[*inventory.Refusal](err), isA[*NotTakenError](err), isA[*inventory.Ambiguous](err), isA[*book.AbsentError](err),
		isA[*book.OccupiedError](err), isA[*book.InsideError](err), isA[*book.OtherClubError](err), isA[*book.BegunApartError](err), isA[*book.TwoClubsError](err), isA[*book.UnknownEventError](err), isA[*book.AmbiguousError](err):
		return Refused
	}
	return Failed
}

func isA[E error](err error) bool {
	var e E
	return errors.As(err, &e)
}

// HintOf says what to do next about an error, where that is known.
func HintOf(err error) string {
	var (
		refusal   *inventory.Refusal
		bad       *inventory.BadValue
		ambiguous *inventory.Ambiguous
		print     *PrintError
		scans     *NotTakenError
		queue     *spool.Refused
		fault     *FaultError
	)
	switch {
	case errors.As(err, &fault):
		return fault.hint()
	case errors.As(err, &scans):
		return scans.hint()
	case errors.As(err, &print):
		return printHint(print)
	case errors.As(err, &refusal):
		return refusal.Hint
	case errors.As(err, &bad):
		return bad.Hint
	case errors.As(err, &ambiguous):
		return "say which one by number, such as " + ambiguous.Members[0].Player.Short()
	case isA[*book.MendableError](err):
		return "nothing was changed; steeltally verify --mend writes it as it was, and keeps what it is now beside it"
	case isA[*verifiedError](err):
		return "nothing was changed; keep the folder as it is, and get back what is whole: steeltally rebuild --into NEW-FOLDER"
	case isA[*book.DamageError](err):
		return "nothing was changed; keep the folder as it is, and look what is wrong: steeltally verify"
	case errors.As(err, &queue):
		return queue.Remedy()
	case isA[*book.OtherClubError](err):
		return "look whether it is the right file; if both are your club's, add --other-club"
	case isA[*book.BegunApartError](err):
		return "look whether it is the right file; a laptop gets its book from a backup; to take it in all the same add --other-club"
	case errors.Is(err, syscall.EROFS):
		return "this disk is write-protected, so that the book on it can be read only; nothing was recorded"
	case errors.Is(err, fs.ErrPermission):
		return "the folder and its files must be yours to read and write; nothing was recorded"
	case errors.Is(err, syscall.ENOSPC) && isA[*book.UnmadeError](err):
		return "free some space there, or name a place on another disk"
	case isA[*book.UnmadeError](err):
		return "name another place"
	case isA[*book.AbsentError](err):
		return "make one with steeltally init, or name another folder with --book; a lost one comes back from its backup: steeltally rebuild --from FILE --into BOOK"
	}
	return ""
}

// printHint says what stands, what to do about the printer, and how to get the tags.
func printHint(print *PrintError) string {
	hint := ""
	if print.Recorded {
		hint = "what was done is recorded; "
	}
	var queue *spool.Refused
	if errors.As(print.Cause, &queue) {
		return hint + queue.Remedy() + "; then: " + print.Reprint
	}
	return hint + "print again with " + print.Reprint
}
