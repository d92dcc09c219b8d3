package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) measureVerb() *cobra.Command {
	caliper := desk.Caliper{}
	var loose, fitted bool
	cmd := &cobra.Command{
		Use: "measure PLAYER|SET|RUNNER [HEIGHT]", Short: "note heights from the caliper", GroupID: groupDay,
		Long: `Note heights in mm: the middle alone, or toe,middle,heel. Steel in a holder counts as
fitted, steel in the hand as loose; the two are never mixed in one series.`,
		Example: "  steeltally measure 17 --left 11.1,11.2,11.0 --right 11.0,11.1,11.0\n" +
			"  steeltally measure R1-42-51 11.2",
		Args: cobra.RangeArgs(1, 2),
		RunE: func(_ *cobra.Command, args []string) error {
			caliper.Who = args[0]
			if len(args) == 2 {
				height, err := desk.ParseHeights(args[1])
				if err != nil {
					return &usageError{err}
				}
				caliper.One = &height
			}
			switch {
			case loose:
				caliper.Reference = inventory.Loose
			case fitted:
				caliper.Reference = inventory.Fitted
			}
			return a.actOn(caliper.Who, func(d *desk.Desk, who string) (desk.Done, error) {
				caliper.Who = who
				return d.Measure(caliper)
			})
		},
	}
	flags := cmd.Flags()
	flags.Var(heightsFlag(&caliper.Sides.Left), "left", "heights of the left runner")
	flags.Var(heightsFlag(&caliper.Sides.Right), "right", "heights of the right runner")
	flags.BoolVar(&loose, "loose", false, "measured in the hand")
	flags.BoolVar(&fitted, "fitted", false, "measured in the holder")
	flags.BoolVar(&caliper.AsRead, "as-read", false, "keep a height that looks like a slip")
	flags.StringVar(&caliper.Pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	cmd.MarkFlagsMutuallyExclusive("loose", "fitted")
	return cmd
}
