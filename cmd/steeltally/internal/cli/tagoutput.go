package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

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
