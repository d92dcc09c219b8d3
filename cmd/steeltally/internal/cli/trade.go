package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

func (a *app) tradeVerb() *cobra.Command {
	deed := deeds.Trade{}
	var sheet desk.Sheet
	cmd := &cobra.Command{
		Use: "trade PLAYER --to CLUB", Short: "a player leaves with his skates; the club's steel stays", GroupID: groupStock,
		Long: `Note that a player leaves. His pairs go along with what is on them; --steel-off keeps
the steel here. His other sets stay with the club, and his history in the book.`,
		Example: "  steeltally trade 17 --to \"Cold Sound\" --pdf handover.pdf",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.withDesk(func(d *desk.Desk) error {
				who, err := a.playerToAct(d, args[0])
				if err != nil {
					return err
				}
				return a.trade(d, who, deed, sheet)
			})
		},
	}
	cmd.Flags().StringVar(&deed.To, "to", "", "where he goes")
	cmd.Flags().BoolVar(&deed.SteelOff, "steel-off", false, "the steel on his pairs stays here too")
	cmd.MarkFlagRequired("to")
	a.sheetFlags(cmd, &sheet)
	return cmd
}

// trade prints the hand-over sheet as things stand before he leaves, then records it.
func (a *app) trade(d *desk.Desk, who string, deed deeds.Trade, sheet desk.Sheet) error {
	going, err := d.Going(who)
	if err != nil {
		return err
	}
	var more answer
	if sheet.File != "" {
		written, err := d.PrintHandOver(who, deed, sheet)
		if err != nil {
			return err
		}
		more.HandOver = written.File
		a.voice.say("hand-over sheet in %s", sayFile(written.File))
	}
	done, err := d.Trade(who, deed)
	if err != nil {
		return err
	}
	more.Going = done.Gone(going)
	return a.voice.done(done, more)
}
