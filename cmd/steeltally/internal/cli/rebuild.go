package cli

import (
	"cmp"
	"context"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

func (a *app) rebuildVerb() *cobra.Command {
	var files []string
	var from, into string
	club := deeds.FoundClub{}
	cmd := &cobra.Command{
		Use: "rebuild --into BOOK", Short: "get a book back: from what is left of it, a backup, or the tags", GroupID: groupBook,
		Long: `Get a damaged book back as a new one: from what is intact of its two files (--book), or
from a backup or an export (--from). The damaged one stays as it is.

Get removed runners and holders back from their tie-on tags, where the book is lost or
old. Scan the bin into a text file, one tag a line, or take pictures of it: every tag
says itself whose steel it was, when and why it came off, its heights, grinds and passes.

The book is made where there is none, and added to where there is one. What it knows
better it keeps; a stale tag, a number alone and what was misread are refused, each
with the reason.`,
		Example: "  steeltally rebuild --book book --into book2\n" +
			"  steeltally rebuild --from terns.zip --into book2\n" +
			"  steeltally rebuild --from-tags bin.txt --into book2\n" +
			"  steeltally rebuild --from-tags shelf1.jpg --from-tags shelf2.jpg --into book2",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if len(files) == 0 {
				return a.asFile(cmp.Or(from, a.options().Book), func(path string) error { return a.rebuildFrom(path, into) })
			}
			scans, err := a.scansFrom(cmd.Context(), files)
			if err != nil {
				return err
			}
			options := a.options()
			options.Book = into
			result, err := desk.RebuildFromTags(options, club, scans)
			if err != nil {
				return err
			}
			return a.sayRebuild(result)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&from, "from", "", "a backup, an export (- is standard input), or another book's folder")
	flags.StringArrayVar(&files, "from-tags", nil, "scans, one a line, or a picture; - is standard input; can be given several times")
	flags.StringVar(&into, "into", "", "the book's folder")
	flags.StringVar(&club.Name, "club", "Club known from its tags", "of a new book: the club's name")
	flags.StringVar(&club.Zone, "zone", "UTC", "of a new book: the club's time zone")
	flags.IntVar(&club.Station, "station", -1, "of a new book: this place's digit; that of most tags unless told")
	cmd.MarkFlagsMutuallyExclusive("from", "from-tags")
	cmd.MarkFlagRequired("into")
	flags.Lookup("station").DefValue = ""
	return cmd
}

// scansFrom gathers the scans of files and pictures.
func (a *app) scansFrom(ctx context.Context, files []string) ([]string, error) {
	var scans []string
	for _, file := range files {
		more, err := a.scansOf(ctx, file)
		if err != nil {
			return nil, err
		}
		scans = append(scans, more...)
	}
	return scans, nil
}

// scansOf gives the scans of a file, or the tags of a picture; "-" is standard input.
func (a *app) scansOf(ctx context.Context, file string) ([]string, error) {
	from, name, err := a.open(file)
	if err != nil {
		return nil, err
	}
	defer from.Close()
	return desk.Scans(ctx, from, name)
}

// mostRefused is how many refused scans are listed for a person.
const mostRefused = 20

func (a *app) sayRebuild(r desk.TagRebuild) error {
	if r.Made {
		a.voice.say("a new book is in %s", r.Book)
	}
	a.voice.say("%s brought back from tags; %s scanned more than once; %s refused",
		desk.SayCount(r.Rebuilt, "removed piece"), desk.SayCount(r.Duplicates, "tag"), desk.SayCount(len(r.Refused), "scan"))
	for i, refused := range r.Refused {
		if i == mostRefused {
			a.voice.say("  … and %d more: --json lists them all", len(r.Refused)-mostRefused)
			break
		}
		a.voice.say("  %s: %s (%s)", nameOf(refused), refused.Reason, refused.Hint)
	}
	a.voice.notices(r.Notices)
	return a.voice.told(r)
}

// nameOf is what a refused scan is called: its piece, or what stands in it.
func nameOf(refused deeds.RefusedTag) string {
	if refused.Number != 0 {
		return refused.Number.Short()
	}
	return refused.Scan
}
