package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) tripManifest() *cobra.Command {
	var sheet desk.Sheet
	var tags tagOutput
	cmd := &cobra.Command{
		Use: "manifest NAME", Short: "what is in which trunk, on screen or on paper; and the trunks' tags",
		Example: "  steeltally trip manifest \"Rime Point\" --pdf manifest.pdf\n  steeltally trip manifest \"Rime Point\" --out trunks.pdf",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.reading(func(d *desk.Desk) error {
				if tags.out != "" || tags.printer != "" {
					return a.trunkTags(d, args[0], tags)
				}
				if sheet.File != "" {
					return a.wrote(d.PrintManifest(args[0], sheet))
				}
				return a.sayManifest(d, args[0])
			})
		},
	}
	a.sheetFlags(cmd, &sheet)
	tags.addFlags(cmd)
	return cmd
}

func (a *app) trunkTags(d *desk.Desk, trip string, tags tagOutput) error {
	trunks, err := d.TripTrunks(trip)
	if err != nil {
		return err
	}
	printed, err := d.PrintTags(tags.job(trunks, "trunk"))
	if err != nil {
		return err
	}
	a.sayTags(printed)
	return a.voice.told(printed)
}

func (a *app) sayManifest(d *desk.Desk, trip string) error {
	manifest, err := d.Manifest(trip)
	if err != nil {
		return err
	}
	if len(manifest) == 0 {
		a.voice.say("nothing is packed")
	}
	for _, trunk := range manifest {
		a.voice.say("%s %s", trunk.Name, trunk.Trunk.Short())
		for _, line := range trunk.In {
			a.voice.say("  %-10s %4d  %s  %s", line.Number.Short(), line.Count, line.What, line.Owner)
		}
	}
	return a.voice.told(answer{Trip: trip, Trunks: manifest})
}
