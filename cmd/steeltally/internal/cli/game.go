package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

func (a *app) gameVerb() *cobra.Command {
	cmd := &cobra.Command{Use: "game", Short: "the schedule of games and practices", GroupID: groupStock, Args: cobra.NoArgs}
	cmd.AddCommand(a.gameAdd(), a.gameImport(), a.gameList())
	return cmd
}

func (a *app) gameAdd() *cobra.Command {
	session := deeds.AddSession{}
	var practice bool
	cmd := &cobra.Command{
		Use: "add START", Short: "a game, or a practice; it may be still to come",
		Example: "  steeltally game add 2025-12-06T19:00 --against \"Rime Point\" --away\n" +
			"  steeltally game add 2025-12-05T10:00 --practice",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			session.Game = !practice
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.AddSession(args[0], session) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&session.Opponent, "against", "", "the opponent")
	flags.BoolVar(&session.Away, "away", false, "not at home")
	flags.BoolVar(&practice, "practice", false, "a practice")
	flags.StringVar(&session.Note, "note", "", "anything else")
	cmd.MarkFlagsOneRequired("against", "practice")
	cmd.MarkFlagsMutuallyExclusive("against", "practice")
	return cmd
}
