package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) putVerb() *cobra.Command {
	var place inventory.Place
	cmd := &cobra.Command{
		Use: "put PIECE… --place PLACE", Short: "where pieces lie", GroupID: groupDay,
		Example: "  steeltally put R1-1-77 R1-2-74 --place \"bin 3\"\n  steeltally put P1-2-06 --place \"trunk 4\" --slot 7",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.Put(args, place) })
		},
	}
	cmd.Flags().StringVar(&place.Name, "place", "", "shelf, trunk or bin, in your own words")
	cmd.Flags().StringVar(&place.Slot, "slot", "", "where in it")
	cmd.MarkFlagRequired("place")
	return cmd
}

// list writes words in one line.
func list[T ~string](words []T) string { return inventory.List(words) }
