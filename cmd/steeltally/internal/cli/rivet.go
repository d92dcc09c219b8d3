package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) rivetVerb() *cobra.Command {
	cmd := &cobra.Command{Use: "rivet", Short: "holders onto boots and off", GroupID: groupStock, Args: cobra.NoArgs}
	cmd.AddCommand(a.rivetOn(), a.rivetOff())
	return cmd
}

func (a *app) rivetOn() *cobra.Command {
	var pair string
	var side inventory.Side
	cmd := &cobra.Command{
		Use: "on HOLDER --pair PAIR", Short: "a holder is riveted on a boot",
		Long:    "Note that a holder was riveted on a boot, with the runner that is in it." + "\n" + handCautions,
		Example: "  steeltally rivet on H1-1-43 --pair P1-1-09",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.RivetOn(args[0], pair, side) })
		},
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
		RunE: func(_ *cobra.Command, args []string) error {
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.RivetOff(args[0]) })
		},
	}
}
