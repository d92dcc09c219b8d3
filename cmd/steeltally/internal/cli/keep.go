package cli

import (
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
		RunE: func(_ *cobra.Command, args []string) error {
			return a.reading(func(d *desk.Desk) error {
				events, err := d.Backup(args[0])
				if err != nil {
					return err
				}
				a.voice.say("%d entries are safe in %s", events, args[0])
				return a.voice.told(answer{File: args[0], Events: &events})
			})
		},
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
		RunE: func(_ *cobra.Command, args []string) error {
			return a.withDesk(func(d *desk.Desk) error {
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
			})
		},
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
