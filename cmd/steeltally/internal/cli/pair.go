package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) pairVerb() *cobra.Command {
	cmd := &cobra.Command{Use: "pair", Short: "a player's pairs of boots", GroupID: groupStock, Args: cobra.NoArgs}
	cmd.AddCommand(a.pairAdd(), a.pairRole(), a.pairPitch(), a.pairPromote())
	return cmd
}

func (a *app) pairAdd() *cobra.Command {
	var role inventory.Role
	cmd := &cobra.Command{
		Use: "add PLAYER", Short: "give a player a pair",
		Example: "  steeltally pair add 17 --role spare",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.withDesk(func(d *desk.Desk) error {
				who, err := a.playerToAct(d, args[0])
				if err != nil {
					return err
				}
				number, done, err := d.AddPair(who, role)
				if err != nil {
					return err
				}
				return a.voice.done(done, answer{Number: number})
			})
		},
	}
	cmd.Flags().StringVar((*string)(&role), "role", "first", "first, spare or third")
	completeWords(cmd, "role", inventory.Roles())
	return cmd
}

func (a *app) pairRole() *cobra.Command {
	return &cobra.Command{
		Use: "role PAIR ROLE", Short: "make a pair its player's first, spare or third",
		Example: "  steeltally pair role P1-12-73 spare",
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.GiveRole(args[0], args[1]) })
		},
	}
}
