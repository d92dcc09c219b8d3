package cli

import (
	"cmp"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

func (a *app) tagVerb() *cobra.Command {
	ask := tagAsk{}
	cmd := &cobra.Command{
		Use: "tag NUMBER… --out FILE|--print PRINTER", Short: "tags of runners, holders, sets, pairs, trunks and bins", GroupID: groupAsk,
		Long: `Make tags: as a PDF that asks not to be scaled, on a printer, or as a PNG to look at.
Each piece gets the tag that goes with it: a removed runner the tie-on tag, a runner
on the shelf the strip on its sleeve, a holder the spot between its towers.

A runner in use carries no tag: even a thin label under a clamp tilts the edges.
The book counts how often a tag came out. --again prints the last ones once more.

Blank tags have numbers already: stick them on first, and enter the pieces when they
are scanned. --actions prints the card for scan, to work with gloves on.

--explain says why a tag's symbols are what they are. --grade measures a simulated print
of them, with the dot gain and blur that it states: a perfect drawing proves nothing.`,
		Example: "  steeltally tag R1-1-77 R1-2-74 --out tags.pdf\n" +
			"  steeltally tag --blank 48 runner --sheet a4-4x34 --out blank.pdf\n" +
			"  steeltally tag --actions --out card.pdf\n" +
			"  steeltally tag R1-1-77 --print bench\n" +
			"  steeltally tag S1-1-72 --template set --sheet a4-3x8 --start 5 --out tags.pdf\n" +
			"  steeltally tag --again --print bench\n" +
			"  steeltally tag R1-1-77 --grade --dpi 203",
		RunE: func(_ *cobra.Command, args []string) error { return a.tag(ask, args) },
	}
	ask.addFlags(cmd)
	return cmd
}

// tagAsk is what was asked of the tag verb.
type tagAsk struct {
	tagOutput
	tagQuestions
	template string
	from     string
	again    bool
	actions  bool
	blank    int
}

func (t *tagAsk) addFlags(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&t.template, "template", "", "the tag; steeltally template list shows them")
	flags.StringVar(&t.from, "from", "", "a file with one number a line, or - for standard input")
	flags.BoolVar(&t.again, "again", false, "tags that came out before, and how often; without a number the last ones")
	flags.IntVar(&t.blank, "blank", 0, "so many blank tags with new numbers; say runner or holder")
	flags.BoolVar(&t.actions, "actions", false, "the card of actions for scan")
	cmd.MarkFlagsMutuallyExclusive("blank", "actions", "again")
	t.tagOutput.addFlags(cmd)
	t.tagQuestions.addFlags(cmd)
	cmd.MarkFlagsMutuallyExclusive("out", "print", "explain", "grade")
}

func (a *app) tag(ask tagAsk, args []string) error {
	if ask.asked() {
		return a.reading(func(d *desk.Desk) error {
			job, err := a.tagJob(d, ask, args)
			if err != nil {
				return err
			}
			return ask.answer(a, d, job)
		})
	}
	if ask.out == "" && ask.printer == "" {
		return usage("where shall the tags go? add --out tags.pdf or --print PRINTER")
	}
	if ask.blank != 0 {
		return a.blankTags(ask, args)
	}
	var printed desk.Printed
	var lines []string
	before := false
	err := a.reading(func(d *desk.Desk) error {
		job, err := a.tagJob(d, ask, args)
		if err != nil {
			return err
		}
		d = d.Asking(a.asked()) // with what came from a file
		if printed, before, err = d.PrintedBefore(); before || err != nil {
			return err
		}
		if printed, err = d.PrintTags(job); err == nil && ask.again {
			lines = d.SayPrints(printed)
		}
		return err
	})
	if err != nil {
		return err
	}
	if before {
		return a.cameOutBefore(printed)
	}
	printed.Notices = append(printed.Notices, desk.CountPrints(a.options(), printed)...)
	for _, line := range lines {
		a.voice.say("%s", line)
	}
	return a.cameOut(printed)
}

// tagJob gathers which pieces' tags are meant.
func (a *app) tagJob(d *desk.Desk, ask tagAsk, args []string) (desk.TagJob, error) {
	texts, err := a.textsFrom(ask.from, args)
	if err != nil {
		return desk.TagJob{}, err
	}
	pieces, err := scannedNumbers(texts)
	if err != nil {
		return desk.TagJob{}, err
	}
	if ask.actions {
		pieces = append(pieces, desk.ActionNumbers()...)
	}
	if len(pieces) == 0 {
		if !ask.again {
			return desk.TagJob{}, usage("whose tags? name the pieces: steeltally tag R1-1-77")
		}
		last, err := d.LastPrinted()
		if err != nil {
			return desk.TagJob{}, err
		}
		pieces, ask.template = last.Pieces, cmp.Or(ask.template, last.Template)
	}
	job := ask.job(pieces, ask.template)
	job.Again, job.Progress = ask.again, a.progress("tags")
	return job, nil
}

// cameOutBefore tells that nothing came out now.
func (a *app) cameOutBefore(p desk.Printed) error {
	a.voice.notices(p.Notices)
	return a.voice.told(p, answer{Repeated: true})
}

// cameOut tells what came out, and where.
func (a *app) cameOut(p desk.Printed) error {
	a.voice.notices(p.Notices)
	count, size := desk.SayCount(p.Tags, "tag")+" on "+desk.SayCount(p.Pages, "page"), "; print at actual size"
	if p.Picture() {
		size = ", to look at"
	}
	if p.Printer != "" {
		a.voice.say("%s sent to %s, job %s", count, p.Printer, p.Job)
	} else {
		a.voice.say("%s in %s%s", count, sayFile(p.File), size)
	}
	return a.voice.told(p)
}

// blankTags keeps new numbers and brings out tags that no piece has yet.
func (a *app) blankTags(ask tagAsk, args []string) error {
	if len(args) != 1 {
		return usage("blank tags for what? steeltally tag --blank 48 runner, or holder")
	}
	return a.withDesk(func(d *desk.Desk) error {
		numbers, done, err := d.ReserveBlank(args[0], ask.blank)
		if err != nil {
			return err
		}
		job := ask.job(numbers, ask.template)
		job.Blank, job.Progress = true, a.progress("tags")
		printed, err := d.PrintAfter(job)
		if err != nil {
			a.voice.doneBefore(done, answer{Numbers: numbers})
			return err
		}
		done, printed.Notices = done.With(printed.Notices), nil
		if err := a.voice.done(done, answer{Numbers: numbers}, printed); err != nil {
			return err
		}
		a.sayTags(printed)
		return nil
	})
}

// tagOutput says where tags shall come out.
type tagOutput struct {
	out      string
	printer  string
	sheet    string
	dpi      int
	start    int
	cutMarks bool
}

func (o *tagOutput) addFlags(cmd *cobra.Command) {
	flags := cmd.Flags()
	fileFlag(cmd, &o.out, "out", "the PDF (or PNG, to look at) to write the tags to")
	flags.StringVar(&o.printer, "print", "", "the printer that they go to; steeltally printer list shows them")
	flags.StringVar(&o.sheet, "sheet", "", "sheet or roll, such as roll-70x35 or a4-3x8; the printer's, or the smallest roll, unless told")
	flags.IntVar(&o.dpi, "dpi", 0, "dots per inch, such as 203, 300 or 600; the printer's, or 203, unless told")
	flags.IntVar(&o.start, "start", 0, "first free label of a part-used sheet; remembered from then on")
	flags.BoolVar(&o.cutMarks, "cut-marks", false, "marks to cut along")
	cmd.MarkFlagsMutuallyExclusive("out", "print")
}

func (o tagOutput) job(pieces []inventory.Number, template string) desk.TagJob {
	return desk.TagJob{
		Pieces: pieces, Template: template, Sheet: o.sheet, DPI: geometry.DPI(o.dpi),
		Start: o.start, CutMarks: o.cutMarks, Out: o.out, Printer: o.printer,
	}
}

// tagsAfter brings out the tags of removed runners once that is recorded; without an
// output it says how to get them.
func (a *app) tagsAfter(d *desk.Desk, out tagOutput, retired []inventory.Number) (desk.Printed, error) {
	if len(retired) == 0 {
		return desk.Printed{}, nil
	}
	if out.out == "" && out.printer == "" {
		var short []string
		for _, n := range retired {
			short = append(short, n.Short())
		}
		hint := "steeltally tag " + strings.Join(short, " ") + " --out tags.pdf"
		return desk.Printed{Notices: []inventory.Notice{{Text: "tie a tag on each removed runner", Hint: hint}}}, nil
	}
	return d.PrintAfter(out.job(retired, ""))
}

// tagsOut says to programs where tags that came with an action went.
type tagsOut struct {
	File    string `json:"tags"`
	Printer string `json:"printer,omitempty"`
	Job     string `json:"job,omitempty"`
}

func tagsIn(printed desk.Printed) tagsOut { return tagsOut{printed.File, printed.Printer, printed.Job} }

// sayTags says where tags that came with an action went; none is nothing to say.
func (a *app) sayTags(printed desk.Printed) {
	switch {
	case printed.Printer != "":
		a.voice.say("%s sent to %s, job %s", desk.SayCount(printed.Tags, "tag"), printed.Printer, printed.Job)
	case printed.Tags > 0:
		a.voice.say("%s in %s; print at actual size", desk.SayCount(printed.Tags, "tag"), sayFile(printed.File))
	}
}
