package desk

import (
	"context"
	"errors"
	"os/exec"
	"time"

	"steeltally/inventory/book"
)

// Report is what was found in the book's two files.
type Report = book.Report

// verifyLimit is how long a look at both files may take, however large they are.
const verifyLimit = 10 * time.Minute

// crashExit is the exit code of a child that crashed; where it was killed there is none.
// With any other one it says why it could not look, such as that the files are not to be read.
const crashExit = 2

// VerifyHere looks at both files of the book in this process, and whether they are older
// ones that were put back.
func VerifyHere(o Options) (Report, error) {
	r, err := book.VerifyHere(o.Book, Program)
	if err != nil || !r.OK {
		return r, err
	}
	r.Back = book.PutBack(o.Book, book.Options{Program: Program, Marks: o.marks()})
	if r.Back != nil {
		r.Notes = append(r.Notes, putBack(r.Back.All())+"; "+putBackHint)
	}
	return r, nil
}

// Mended is what Mend came to.
type Mended = book.Mended

// Mend writes the journal as it was before another program rewrote it, where that is all.
func Mend(o Options) (Mended, error) {
	mended, err := book.Mend(o.Book, Program)
	if err == nil && mended.Was != "" {
		o.stands("what could be mended is mended: steeltally verify looks again")
	}
	return mended, err
}

// Verify lets a process of its own look, so that a failing disk takes only that one
// down: self is this program's file, and its arguments run VerifyHere there.
func Verify(ctx context.Context, o Options, self string, arguments ...string) (Report, error) {
	ctx, cancel := context.WithTimeout(ctx, verifyLimit)
	defer cancel()
	report, err := book.Verify(ctx, self, append(arguments, "--book", o.Book)...)
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > 0 && exit.ExitCode() != crashExit {
		return VerifyHere(o) // it could not even begin: say why
	}
	return report, err
}

// verifiedError is damage that was looked at already.
type verifiedError struct{ error }

func (e *verifiedError) Unwrap() error { return e.error }

// DamageOf is the error that a report stands for; nil where all is well.
func DamageOf(o Options, r Report) error {
	if err := r.Damage(o.Book); err != nil {
		return &verifiedError{err}
	}
	return nil
}
