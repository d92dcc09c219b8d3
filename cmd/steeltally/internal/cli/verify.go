package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) verifyVerb() *cobra.Command {
	var here, mend bool
	cmd := &cobra.Command{
		Use: "verify", Short: "hold the book's two files against each other", GroupID: groupBook,
		Long: `Read both files of the book whole and hold them against each other. Names what is
damaged and changes nothing.

An editor or a transfer can rewrite the journal without harm to its entries: other ends
of lines, an empty line. Where that is all, --mend writes it as it was, in its place,
and keeps what was found beside it.`,
		Example: "  steeltally verify\n  steeltally verify --mend",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if here {
				return a.verifyHere()
			}
			if mend {
				return a.mend()
			}
			report, err := desk.Verify(cmd.Context(), a.options(), a.world.Self, "verify", "--here")
			if err != nil {
				return err
			}
			return a.sayReport(report)
		},
	}
	cmd.Flags().BoolVar(&mend, "mend", false, "write a journal as it was that another program rewrote, if that is all")
	cmd.Flags().BoolVar(&here, "here", false, "look in this process and write the report for the one that asked")
	cmd.Flags().MarkHidden("here")
	return cmd
}

func (a *app) verifyHere() error {
	report, err := desk.VerifyHere(a.options())
	if err != nil {
		return err
	}
	a.json = true
	return a.voice.told(report)
}

// mend mends what can be mended in place, and says what is left.
func (a *app) mend() error {
	mended, err := desk.Mend(a.options())
	if err != nil {
		return err
	}
	a.voice.told(mended)
	if mended.Was != "" {
		a.voice.say("mended; as it was found it is in %s", mended.Kept)
	}
	return a.sayFound(mended.Report)
}

func (a *app) sayReport(r desk.Report) error {
	a.voice.told(r)
	return a.sayFound(r)
}

func (a *app) sayFound(r desk.Report) error {
	a.voice.say("%d entries", r.Events)
	for _, found := range append(r.Problems, r.Notes...) {
		a.voice.say("  %s", found)
	}
	if err := desk.DamageOf(a.options(), r); err != nil {
		return &toldError{err}
	}
	if r.Back != nil {
		a.voice.say("the journal and book.db agree, and lack what is said above")
		return nil
	}
	a.voice.say("all is well: the journal and book.db agree")
	return nil
}

// toldError is an error that a program was told in the object it got.
type toldError struct{ cause error }

func (e *toldError) Error() string { return e.cause.Error() }
func (e *toldError) Unwrap() error { return e.cause }
