package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory/deeds"
)

func (a *app) triedVerb() *cobra.Command {
	deed := deeds.NoteTry{}
	cmd := &cobra.Command{
		Use: "tried PLAYER|PAIR", Short: "a player tried the spare pair", GroupID: groupDay,
		Long: `Note that a player tried his spare pair: a few laps, enough to say whether he would
play on it. A whole practice or game on it is steeltally skated, and wants a grind after.`,
		Example: "  steeltally tried 17\n  steeltally tried P1-2-06 --declined --note \"too stiff\"",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.Tried(who, deed) })
		},
	}
	cmd.Flags().BoolVar(&deed.Declined, "declined", false, "he would rather not play on it")
	cmd.Flags().StringVar(&deed.Note, "note", "", "what he said")
	return cmd
}

func (a *app) skatedVerb() *cobra.Command {
	var practice bool
	cmd := &cobra.Command{
		Use: "skated PLAYER|PAIR", Short: "a game or practice on the spare pair", GroupID: groupDay,
		Long: `Note that a player played or practised on his spare pair: it is ready again once it was
ground. The first pair is skated every day and needs no entry.`,
		Example: "  steeltally skated 17\n  steeltally skated 17 --practice",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.Skated(who, !practice) })
		},
	}
	cmd.Flags().BoolVar(&practice, "practice", false, "a practice, not a game")
	return cmd
}

func (a *app) pairPitch() *cobra.Command {
	return &cobra.Command{
		Use: "pitch PAIR|PLAYER PITCH", Short: "how a pair's holders are pitched, heel minus toe",
		Example: "  steeltally pair pitch P1-2-06 1.5mm",
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			pitch, err := geometry.ParseLength(args[1])
			if err != nil {
				return &usageError{err}
			}
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.Pitch(who, pitch) })
		},
	}
}

func (a *app) pairPromote() *cobra.Command {
	return &cobra.Command{
		Use: "promote PLAYER", Short: "the third pair becomes the first, the first the spare, the spare is kept",
		Example: "  steeltally pair promote 17",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.Promote(who) })
		},
	}
}
