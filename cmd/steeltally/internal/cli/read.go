package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) readVerb() *cobra.Command {
	var mark string
	var graded bool
	cmd := &cobra.Command{
		Use: "read PICTURE…", Short: "find the tags in photographs", GroupID: groupAsk,
		Long: `Find all tags in photographs or scans: of a bench full of tags, a bin tipped out, a
trunk. Says for each tag its number, what it says, and where it lies.

A photograph does when each module of a symbol is at least 4 pixels wide, sharp and
not glaring: about 24 tie-on tags on a picture of 12 megapixels.`,
		Example: "  steeltally read bench.jpg\n  steeltally read bench.jpg --mark found.png\n  steeltally read scan300.png --grade",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if mark != "" && len(args) > 1 {
				return usage("--mark goes with one picture at a time")
			}
			seen := readResult{Tags: []desk.SeenTag{}, Others: []desk.OtherSymbol{}, Unread: []unread{}}
			var failed error
			for _, file := range args {
				photograph, err := a.photograph(cmd.Context(), file)
				if graded {
					photograph.Grade()
				}
				if err == nil && mark != "" {
					err = photograph.Mark(a.options(), mark)
				}
				if err != nil {
					failed = err
					seen.Unread = append(seen.Unread, unread{file, err.Error()})
					continue
				}
				seen.add(photograph)
			}
			if len(seen.Unread) == len(args) {
				return failed
			}
			seen.graded = graded
			return a.saySeen(seen, mark)
		},
	}
	cmd.Flags().BoolVar(&graded, "grade", false, "grade how well each symbol is printed, by "+desk.GradeStandard+"; indicative")
	fileFlag(cmd, &mark, "mark", "draw what was found into a copy of the picture, a PNG")
	return cmd
}

// photograph finds the tags in a picture, "-" is standard input.
func (a *app) photograph(ctx context.Context, file string) (desk.Photograph, error) {
	from, name, err := a.open(file)
	if err != nil {
		return desk.Photograph{}, err
	}
	defer from.Close()
	return desk.ReadPhotograph(ctx, from, name)
}

// readResult is what was found in all pictures.
type readResult struct {
	Tags   []desk.SeenTag     `json:"tags"`
	Others []desk.OtherSymbol `json:"others"`
	Unread []unread           `json:"unread"`
	files  int
	graded bool
}

// unread is a picture that can't be read.
type unread struct {
	File  string `json:"file"`
	Error string `json:"error"`
}

func (r *readResult) add(p desk.Photograph) {
	r.Tags, r.Others = append(r.Tags, p.Tags...), append(r.Others, p.Others...)
	r.files++
}

func (a *app) saySeen(seen readResult, mark string) error {
	var failed error
	if len(seen.Unread) > 0 {
		failed = &toldError{fmt.Errorf("%s could not be read", desk.SayCount(len(seen.Unread), "picture"))}
	}
	if err := a.voice.told(seen); err != nil {
		return err
	}
	var rows [][]string
	for _, tag := range seen.Tags {
		at := tag.Corners[0]
		rows = append(rows, []string{tag.Number.Short(), tag.Number.Kind().String(), fmt.Sprintf("%d,%d", at[0], at[1]), tag.File, tag.Text})
	}
	if len(rows) > 0 {
		a.voice.table([]string{"number", "kind", "at", "picture", "says"}, rows)
	}
	a.voice.say("%s in %s", desk.SayCount(len(seen.Tags), "tag"), desk.SayCount(seen.files, "picture"))
	a.saySeenGrades(seen)
	for _, other := range seen.Others {
		a.voice.say("not one of ours: %s in %s", other.Text, other.File)
	}
	if mark != "" {
		a.voice.say("they are framed in %s", sayFile(mark))
	}
	for _, u := range seen.Unread {
		a.voice.say("not read: %s", u.Error)
	}
	return failed
}

// saySeenGrades says how well the symbols in the pictures are printed.
func (a *app) saySeenGrades(seen readResult) {
	if !seen.graded {
		return
	}
	for _, tag := range seen.Tags {
		a.voice.say("\n%s in %s", tag.Number.Short(), tag.File)
		a.saySymbolGrades(tag.Grades)
	}
	a.voice.say("\nby %s; %s", desk.GradeStandard, indicative)
}
