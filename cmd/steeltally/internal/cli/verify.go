package cli

import (
	"context"
	"errors"
	"os/exec"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/book"
)

// verifyLimit is how long a look at both files may take, however large they are.
const verifyLimit = 10 * time.Minute

func (a *app) verifyVerb() *cobra.Command {
	var here bool
	cmd := &cobra.Command{
		Use: "verify", Short: "hold the book's two files against each other", GroupID: groupBook,
		Long: `Read both files of the book whole and hold them against each other. Names what is
damaged and changes nothing.`,
		Example: "  steeltally verify",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if here {
				return a.verifyHere()
			}
			report, err := a.verifyInChild(cmd.Context())
			if err != nil {
				return err
			}
			return a.sayReport(report)
		},
	}
	cmd.Flags().BoolVar(&here, "here", false, "look in this process and write the report for the one that asked")
	cmd.Flags().MarkHidden("here")
	return cmd
}

func (a *app) verifyHere() error {
	report, err := book.VerifyHere(a.options().Book, desk.Program)
	if err != nil {
		return err
	}
	return a.voice.object(report)
}

// verifyInChild lets a process of its own look, so that a failing disk takes only that
// one down. What the child could not do it told by its exit code.
func (a *app) verifyInChild(ctx context.Context) (book.Report, error) {
	ctx, cancel := context.WithTimeout(ctx, verifyLimit)
	defer cancel()
	report, err := book.Verify(ctx, a.world.Self, "verify", "--here", "--book", a.options().Book)
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > exitFailed {
		_, err = book.VerifyHere(a.options().Book, desk.Program)
	}
	return report, err
}

func (a *app) sayReport(r book.Report) error {
	if a.json {
		a.voice.object(r)
	} else {
		a.voice.say("%d entries", r.Events)
		for _, problem := range append(r.Problems, r.Notes...) {
			a.voice.say("  %s", problem)
		}
	}
	if !r.OK {
		return &toldError{&book.DamageError{File: a.options().Book, What: "see above"}}
	}
	a.voice.say("all is well: the journal and book.db agree")
	return nil
}

// toldError is an error of which everything was said already.
type toldError struct{ cause error }

func (e *toldError) Error() string { return e.cause.Error() }
func (e *toldError) Unwrap() error { return e.cause }
