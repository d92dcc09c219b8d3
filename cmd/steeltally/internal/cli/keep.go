package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) backupVerb() *cobra.Command {
	return &cobra.Command{
		Use: "backup FILE", Short: "the whole book in one file, checked after writing", GroupID: groupBook,
		Long: `Write the whole book to one file. It is read again before it takes the place of an
older backup of that name, and can be taken while others record. Keep it on another
disk. steeltally rebuild --from FILE --into BOOK gets the book back.`,
		Example: "  steeltally backup /media/stick/terns.zip",
		Args:    cobra.ExactArgs(1),
		RunE: a.reads(func(d *desk.Desk, args []string) error {
			events, err := d.Backup(args[0])
			if err != nil {
				return err
			}
			a.voice.say("%d entries are safe in %s", events, args[0])
			return a.voice.told(answer{File: args[0], Events: &events})
		}),
	}
}

func (a *app) mergeVerb() *cobra.Command {
	anyClub := false
	cmd := &cobra.Command{
		Use: "merge OTHER", Short: "take in what another station's book knows", GroupID: groupBook,
		Long: `Take in the entries of another book, of a backup, or of a file that export wrote. Books
come to the same state whatever is merged into what, in any order, any number of times.
Where two stations contradict each other both entries stay and are flagged; an entry
under a number that another entry has is set aside and shown. Another club's book is
refused, and so is one that was begun apart and gave the same numbers.`,
		Example: "  steeltally merge /media/stick/away-book",
		Args:    cobra.ExactArgs(1),
		RunE: a.uses(func(d *desk.Desk, args []string) error {
			var merged desk.Merged
			err := a.asFile(args[0], func(path string) (err error) {
				merged, err = d.Merge(path, anyClub)
				return err
			})
			if err != nil {
				return err
			}
			a.voice.say("entries taken in: %d, known already: %d", merged.Added, merged.Known)
			if merged.SetAside > 0 {
				a.voice.say("entries that contradict what is here, or can't be, set aside: %d (steeltally setaside shows them)", merged.SetAside)
			}
			a.voice.notices(merged.Notices)
			return a.voice.told(merged)
		}),
	}
	cmd.Flags().BoolVar(&anyClub, "other-club", false, "take it in though its club has another name, or it was begun apart")
	return cmd
}

// rebuildFrom makes a book of what is intact of another.
func (a *app) rebuildFrom(from, into string) error {
	options := a.options()
	options.Book = into
	rebuilt, err := desk.Rebuild(options, from)
	if err != nil {
		return err
	}
	a.voice.say("a new book is in %s, with %d entries", into, rebuilt.Events)
	for _, lost := range rebuilt.Lost {
		a.voice.say("  lost: %s", lost)
	}
	if rebuilt.BadLines > 0 || rebuilt.SetAside > 0 {
		a.voice.say("  damaged lines left out: %d; entries that contradict others, or can't be, set aside: %d", rebuilt.BadLines, rebuilt.SetAside)
	}
	a.voice.notices(rebuilt.Notices)
	return a.voice.told(rebuilt)
}

func (a *app) exportVerb() *cobra.Command {
	var jsonl, csv string
	cmd := &cobra.Command{
		Use: "export --jsonl FILE | --csv DIR", Short: "write the whole journal to a file, or tables for a spreadsheet", GroupID: groupBook,
		Long: `Write the whole journal to a file, one entry a line: the same entries give the same
bytes, however the book came by them. Or write tables for a spreadsheet into a folder:
pieces, grinds, heights, damages, with units in their headings.`,
		Example: "  steeltally export --jsonl all.jsonl\n  steeltally export --csv tables",
		Args:    cobra.NoArgs,
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			if csv == desk.StandardStream {
				return usage("--csv writes several tables: name a folder for them")
			}
			if csv != "" {
				return a.exportTables(d, csv)
			}
			events, err := d.Export(jsonl)
			if err != nil {
				return err
			}
			a.voice.say("%d entries in %s", events, sayFile(jsonl))
			return a.voice.told(answer{File: jsonl, Events: &events})
		}),
	}
	fileFlag(cmd, &jsonl, "jsonl", "the file to write")
	cmd.Flags().StringVar(&csv, "csv", "", "the folder to write tables into")
	cmd.MarkFlagsOneRequired("jsonl", "csv")
	cmd.MarkFlagsMutuallyExclusive("jsonl", "csv")
	return cmd
}

func (a *app) exportTables(d *desk.Desk, dir string) error {
	files, err := d.ExportTables(dir)
	if err != nil {
		return err
	}
	a.voice.say("%s", strings.Join(files, "\n"))
	return a.voice.told(answer{Files: files})
}

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
