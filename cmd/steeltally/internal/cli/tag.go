package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) tagVerb() *cobra.Command {
	var template string
	out := tagOutput{}
	cmd := &cobra.Command{
		Use: "tag NUMBER… --out FILE", Short: "tags of runners, holders, sets and pairs as a PDF", GroupID: groupAsk,
		Long: `Make tags of runners, holders, sets and pairs as a PDF that asks not to be scaled.
Each piece gets the tag that goes with it: a removed runner the tie-on tag, a runner
on the shelf the strip on its sleeve, a holder the spot between its towers.

A runner in use carries no tag: even a thin label under a clamp tilts the edges.`,
		Example: "  steeltally tag R1-1-27 R1-2-24 --out tags.pdf\n" +
			"  steeltally tag S1-1-26 --template set --sheet a4-3x8 --start 5 --out tags.pdf",
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if out.out == "" {
				return usage("where shall the tags go? add --out tags.pdf")
			}
			var pieces []inventory.Number
			for _, text := range args {
				n, err := inventory.ScannedNumber(text)
				if err != nil {
					return err
				}
				pieces = append(pieces, n)
			}
			return a.reading(func(d *desk.Desk) error { return a.printTags(d, out.job(pieces, template)) })
		},
	}
	cmd.Flags().StringVar(&template, "template", "", "the tag: tie-on, sleeve-strip, sleeve-spot, holder-spot, set, pair")
	out.addFlags(cmd)
	return cmd
}

func (a *app) printTags(d *desk.Desk, job desk.TagJob) error {
	printed, err := d.PrintTags(job)
	if err != nil {
		return err
	}
	for _, n := range printed.Notices {
		a.voice.notice(n)
	}
	if a.json {
		return a.voice.object(map[string]any{"file": printed.File, "tags": printed.Tags, "pages": printed.Pages, "notices": printed.Notices})
	}
	a.voice.say("%s on %s in %s; print at actual size", count(printed.Tags, "tag"), count(printed.Pages, "page"), printed.File)
	return nil
}
