package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) inVerb() *cobra.Command {
	var pair string
	cmd := &cobra.Command{
		Use: "in PLAYER SET", Short: "put a set on a player's pair", GroupID: groupDay,
		Long:    "Put a set on the pair that a player skates on, or on the one that is named." + "\n" + handCautions,
		Example: "  steeltally in 17 A\n  steeltally in 17 B --pair spare",
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.PutIn(who, args[1], pair) })
		},
	}
	cmd.Flags().StringVar(&pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	return cmd
}
