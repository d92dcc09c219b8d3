package desk

import (
	"errors"
	"io/fs"
	"syscall"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/labels/spool"
)

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
