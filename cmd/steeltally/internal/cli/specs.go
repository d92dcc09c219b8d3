package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) specsVerb() *cobra.Command {
	specs := inventory.Specs{}
	cmd := &cobra.Command{
		Use: "specs PLAYER", Short: "how a player's steel shall be, from now on", GroupID: groupStock,
		Long: `Say how a player's steel shall be from now on; what is left out stays as it was.

Pitch is heel minus toe: above zero leans forward. The change height is where this
player's steel is changed.`,
		Example: "  steeltally specs 17 --hollow 1/2in --profile 11ft --passes 5 --change-height 8.4mm\n" +
			"  steeltally specs 30 --hollow 28ft --profile 28ft",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.NoteSpecs(who, specs) })
		},
	}
	flags := cmd.Flags()
	flags.Var(cutFlag(&specs.Hollow), "hollow", `hollow, or "flat WIDTH EDGE-HEIGHT"`)
	flags.Var(profileFlag(&specs.Profile), "profile", "profile; several radii from toe to heel as 9ft+13ft")
	flags.Var(lengthFlag(&specs.Pitch), "pitch", "heel minus toe")
	flags.Var(countFlag(&specs.Passes), "passes", "usual passes a side")
	flags.Var(heightFlag(&specs.ChangeHeight), "change-height", "height at which the steel is changed")
	return cmd
}
