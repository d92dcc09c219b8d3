package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) setVerb() *cobra.Command {
	return parent(&cobra.Command{Use: "set", Short: "sets: two matched runners of a player", GroupID: groupStock, Args: cobra.NoArgs}, a.setAdd(), a.setList())
}

func (a *app) setAdd() *cobra.Command {
	var left, right, letter string
	cmd := &cobra.Command{
		Use: "add PLAYER --left RUNNER --right RUNNER", Short: "match two runners as a player's next set",
		Example: "  steeltally set add 17 --left R1-1-77 --right R1-2-74",
		Args:    cobra.ExactArgs(1),
		RunE: a.uses(func(d *desk.Desk, args []string) error {
			who, err := a.playerToAct(d, args[0])
			if err != nil {
				return err
			}
			added, done, err := d.AddSet(who, letter, left, right)
			return a.did(done, err, answer{Set: added.Letter, Number: added.Number})
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&left, "left", "", "the left runner")
	flags.StringVar(&right, "right", "", "the right runner")
	flags.StringVar(&letter, "letter", "", "A to Z; the next one unless told")
	cmd.MarkFlagRequired("left")
	cmd.MarkFlagRequired("right")
	return cmd
}

func (a *app) setList() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use: "list PLAYER", Short: "a player's sets and where they are",
		Example: "  steeltally set list 17",
		Args:    cobra.ExactArgs(1),
		RunE: a.reads(func(d *desk.Desk, args []string) error {
			who, err := a.player(d, args[0])
			if err != nil {
				return err
			}
			sets, err := d.Sets(who, all)
			if err != nil {
				return err
			}
			return tabled(a.voice, answer{Sets: sets}, sets, []string{"set", "state", "left", "right", "place", "number"}, func(s desk.SetLine) []string {
				return []string{s.Letter, string(s.State), s.Left.Short(), s.Right.Short(), s.Place, s.Number.Short()}
			})
		}),
	}
	cmd.Flags().BoolVar(&all, "all", false, "those done with too")
	return cmd
}

func (a *app) pairVerb() *cobra.Command {
	return parent(&cobra.Command{Use: "pair", Short: "a player's pairs of boots", GroupID: groupStock, Args: cobra.NoArgs}, a.pairAdd(), a.pairRole(), a.pairPitch(), a.pairPromote())
}

func (a *app) pairAdd() *cobra.Command {
	var role inventory.Role
	cmd := &cobra.Command{
		Use: "add PLAYER", Short: "give a player a pair",
		Example: "  steeltally pair add 17 --role spare",
		Args:    cobra.ExactArgs(1),
		RunE: a.uses(func(d *desk.Desk, args []string) error {
			who, err := a.playerToAct(d, args[0])
			if err != nil {
				return err
			}
			number, done, err := d.AddPair(who, role)
			return a.did(done, err, answer{Number: number})
		}),
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
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.GiveRole(args[0], args[1]) }),
	}
}
