package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) custodyVerb() *cobra.Command {
	return parent(&cobra.Command{
		Use: "custody", Short: "who has a piece, and when it is due back", GroupID: groupStock, Args: cobra.NoArgs,
		Long: `Say who has a piece that is not with the club: its player at home, the national team,
the farm club, a borrower, a repairer, the maker. Custody is not place. What is back is
looked at and measured; passes that others ground are unknown, not zero.`,
	}, a.custodyTo(), a.custodyBack(), a.custodyAnswer(), a.custodyList())
}

func (a *app) custodyTo() *cobra.Command {
	deed := deeds.HandOver{}
	var due string
	cmd := &cobra.Command{
		Use: "to WHO PIECE…", Short: "give pieces into other hands: " + list(inventory.Custodies()[1:]),
		Example: "  steeltally custody to maker H1-1-43 --with \"Skua Works\" --reference 2025-12 --due 2025-12-20\n" +
			"  steeltally custody to national P1-2-06 --due 2026-02-22",
		Args: cobra.MinimumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			deed.Custody = inventory.Custodian(args[0])
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.HandOver(args[1:], due, deed) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&deed.With, "with", "", "whom, by name")
	flags.StringVar(&deed.Reference, "reference", "", "of the letter that goes along")
	flags.StringVar(&due, "due", "", "back, or answered, by then")
	flags.StringVar(&deed.Note, "note", "", "anything else")
	return cmd
}

func (a *app) custodyBack() *cobra.Command {
	var notGround bool
	cmd := &cobra.Command{
		Use: "back PIECE…", Short: "pieces are with the club again",
		Example: "  steeltally custody back P1-2-06\n  steeltally custody back H1-1-43 --not-ground",
		Args:    cobra.MinimumNArgs(1),
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.TakeBack(args, notGround) }),
	}
	cmd.Flags().BoolVar(&notGround, "not-ground", false, "nobody ground it meanwhile")
	return cmd
}

func (a *app) custodyAnswer() *cobra.Command {
	deed := deeds.NoteAnswer{}
	var due string
	cmd := &cobra.Command{
		Use: "answer DECISION [PIECE…]", Short: "what a maker said: " + list(inventory.Decisions()),
		Long: `Note what a maker or repairer said about the pieces that he has, by piece or by the
letter's reference. settled is that the replacement, the credit or the repair came.`,
		Example: "  steeltally custody answer replace --reference 2025-12 --due 2026-01-15\n  steeltally custody answer settled --reference 2025-12",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			deed.Decision = inventory.Decision(args[0])
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.NoteAnswer(args[1:], due, deed) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&deed.Reference, "reference", "", "of the letter")
	flags.StringVar(&due, "due", "", "what was promised, by then")
	flags.StringVar(&deed.Note, "note", "", "anything else")
	return cmd
}

func (a *app) custodyList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "what is away, and what is overdue", Args: cobra.NoArgs,
		Example: "  steeltally custody list",
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			lines, err := d.Away()
			if err != nil {
				return err
			}
			if len(lines) == 0 {
				a.voice.say("everything is with the club")
				return a.voice.told(answer{Away: lines})
			}
			return tabled(a.voice, answer{Away: lines}, lines, []string{"number", "with", "since", "due", "answer"}, func(line desk.AwayLine) []string {
				due := line.Due
				if line.Overdue {
					due += " OVERDUE"
				}
				return []string{line.Number.Short(), line.Words, line.Since, due, string(line.Decision)}
			})
		}),
	}
}

func (a *app) tradeVerb() *cobra.Command {
	deed := deeds.Trade{}
	var sheet desk.Sheet
	cmd := &cobra.Command{
		Use: "trade PLAYER --to CLUB", Short: "a player leaves with his skates; the club's steel stays", GroupID: groupStock,
		Long: `Note that a player leaves. His pairs go along with what is on them; --steel-off keeps
the steel here. His other sets stay with the club, and his history in the book.`,
		Example: "  steeltally trade 17 --to \"Cold Sound\" --pdf handover.pdf",
		Args:    cobra.ExactArgs(1),
		RunE: a.uses(func(d *desk.Desk, args []string) error {
			who, err := a.playerToAct(d, args[0])
			if err != nil {
				return err
			}
			return a.trade(d, who, deed, sheet)
		}),
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
