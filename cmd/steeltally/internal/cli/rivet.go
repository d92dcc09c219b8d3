package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) rivetVerb() *cobra.Command {
	return parent(&cobra.Command{Use: "rivet", Short: "holders onto boots and off", GroupID: groupStock, Args: cobra.NoArgs}, a.rivetOn(), a.rivetOff())
}

func (a *app) rivetOn() *cobra.Command {
	var pair string
	var side inventory.Side
	cmd := &cobra.Command{
		Use: "on HOLDER --pair PAIR", Short: "a holder is riveted on a boot",
		Long:    "Note that a holder was riveted on a boot, with the runner that is in it." + "\n" + handCautions,
		Example: "  steeltally rivet on H1-1-43 --pair P1-1-09",
		Args:    cobra.ExactArgs(1),
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.RivetOn(args[0], pair, side) }),
	}
	cmd.Flags().StringVar(&pair, "pair", "", "the pair")
	cmd.Flags().Var(sideFlag(&side), "side", "the boot; the holder's own side unless told")
	cmd.MarkFlagRequired("pair")
	return cmd
}

func (a *app) rivetOff() *cobra.Command {
	return &cobra.Command{
		Use: "off HOLDER", Short: "a holder comes off its boot, with the runner that is in it",
		Long:    "Note that a holder came off its boot; a runner in it stays in it." + "\n" + handCautions,
		Example: "  steeltally rivet off H1-1-43",
		Args:    cobra.ExactArgs(1),
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.RivetOff(args[0]) }),
	}
}

func (a *app) scrapVerb() *cobra.Command {
	var reason, from string
	cmd := &cobra.Command{
		Use: "scrap PIECE…", Short: "pieces are thrown away; their history stays", GroupID: groupStock,
		Example: "  steeltally scrap R1-1-77 R1-2-74 --reason \"season's end\"\n  steeltally scrap --from bin3.txt",
		RunE: func(_ *cobra.Command, args []string) error {
			pieces, err := a.textsFrom(from, args)
			if err != nil {
				return err
			}
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.Scrap(pieces, reason) })
		},
	}
	cmd.Flags().StringVar(&reason, "reason", "", "why")
	cmd.Flags().StringVar(&from, "from", "", "a file of scans, one a line; - is the standard input")
	return cmd
}

func (a *app) putVerb() *cobra.Command {
	var place inventory.Place
	cmd := &cobra.Command{
		Use: "put PIECE… --place PLACE", Short: "where pieces lie", GroupID: groupDay,
		Example: "  steeltally put R1-1-77 R1-2-74 --place \"bin 3\"\n  steeltally put P1-2-06 --place \"trunk 4\" --slot 7",
		Args:    cobra.MinimumNArgs(1),
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.Put(args, place) }),
	}
	cmd.Flags().StringVar(&place.Name, "place", "", "shelf, trunk or bin, in your own words")
	cmd.Flags().StringVar(&place.Slot, "slot", "", "where in it")
	cmd.MarkFlagRequired("place")
	return cmd
}

// list writes words in one line.
func list[T ~string](words []T) string { return inventory.List(words) }
