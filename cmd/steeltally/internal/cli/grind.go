package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) grindVerb() *cobra.Command {
	work := deeds.Grind{}
	var passes *int
	var pair string
	var but []string
	cmd := &cobra.Command{
		Use: "grind PLAYER…", Aliases: []string{"sharpen"}, Short: "log a grind: the usual passes unless told", GroupID: groupDay,
		Long: `Log work at the wheel. Without passes the player's usual ones count, the same left and
right. The grind goes to the set that was on at the time it happened: with --at a
morning's grind can be entered after the noon change. Several who are named are logged
all or none; of all, those that can be, and who can't is told with why.

Passes that somebody else did on the road are --unknown; unknown is not zero.` + "\n" + cautions,
		Example: "  steeltally grind 17\n  steeltally grind 4 7 11\n  steeltally grind all --but 7,19\n" +
			"  steeltally grind 17 --left 6 --right 5\n  steeltally grind 17 --more --left 2\n" +
			"  steeltally grind 17 --unknown --ground-by \"rink at Rime Point\" --at 2025-11-04",
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if passes != nil {
				work.Passes.Left, work.Passes.Right = passes, passes
			}
			return a.withDesk(func(d *desk.Desk) error {
				for i := range args {
					who, err := a.playerToAct(d, args[i])
					if err != nil {
						return err
					}
					args[i] = who
				}
				done, err := d.Grind(args, but, pair, work)
				return a.did(done, err)
			})
		},
	}
	flags := cmd.Flags()
	flags.Var(countFlag(&passes), "passes", "passes on each side")
	flags.Var(countFlag(&work.Passes.Left), "left", "passes left")
	flags.Var(countFlag(&work.Passes.Right), "right", "passes right")
	flags.BoolVar(&work.Unknown, "unknown", false, "nobody knows how many passes")
	flags.BoolVar(&work.More, "more", false, "these passes come on top of the grind before")
	work.Work = inventory.WorkGrind
	wordFlag(cmd, &work.Work, "work", "what was done", inventory.Works())
	flags.Var(cutFlag(&work.Hollow), "hollow", "the hollow that was ground; the player's unless told")
	flags.StringVar(&work.Machine, "machine", "", "which machine")
	flags.StringVar(&work.By, "ground-by", "", "who ground, where it was somebody else")
	flags.StringVar(&pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	flags.StringSliceVar(&but, "but", nil, "with all: everybody but these")
	cmd.MarkFlagsMutuallyExclusive("passes", "left")
	cmd.MarkFlagsMutuallyExclusive("passes", "right")
	cmd.MarkFlagsMutuallyExclusive("passes", "unknown")
	return cmd
}

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
