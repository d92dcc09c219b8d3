package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) reviewVerb() *cobra.Command {
	asked := desk.ReviewAsked{}
	sheet := desk.Sheet{}
	var from string
	var all bool
	cmd := &cobra.Command{
		Use: "review [PLAYER]", Short: "look back: a bin, a player, a season, the whole club", GroupID: groupAsk,
		Long: `Look back on steel that is done with: of each player pieces and sets, how long they
lasted, what a pass takes off, the height at removal, left against right, reasons and
damages; and what stands out.

With --from the tags of a bin are read: one scan a line as a hand scanner types them, -
for what is typed, or photographs of tags. What the book does not know is taken from the
tags alone; duplicates, foreign and misplaced pieces are told by themselves.

"Differs" is only said when chance alone would not bring it about, however often one
looks; else "can't say". That is decided on seven set days a year and stands in between.`,
		Example: "  steeltally review\n  steeltally review 17\n  steeltally review --season 2025/26 --pdf review.pdf\n" +
			"  steeltally review --from bin.txt",
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				asked.Player = args[0]
			}
			if from != "" {
				if asked.Player != "" || asked.Season != "" {
					return usage("a bin is reviewed whole: leave the player and the season out")
				}
				scans, err := a.scansOf(cmd.Context(), from)
				if err != nil {
					return err
				}
				asked.Scans, asked.Bin = scans, true
			}
			return a.review(asked, sheet, all)
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "the tags of a bin: a file of scans, a photograph, or - for standard input")
	cmd.Flags().StringVar(&asked.Season, "season", "", "what came off in a season, such as 2025/26, or in a month")
	cmd.Flags().BoolVar(&all, "all", false, "also what nobody can say, each with its figures")
	a.sheetFlags(cmd, &sheet)
	return cmd
}

func (a *app) review(asked desk.ReviewAsked, sheet desk.Sheet, all bool) error {
	err := a.reading(func(d *desk.Desk) error {
		if asked.Player != "" {
			who, err := a.player(d, asked.Player)
			if err != nil {
				return err
			}
			asked.Player = who
		}
		review, err := d.Review(asked)
		if err != nil {
			return err
		}
		if sheet.File != "" {
			return a.wrote(d.PrintReview(review, sheet))
		}
		pieces, err := d.Pieces(piecesRemoved(review))
		if err != nil {
			return err
		}
		return a.tellReview(review, pieces, all)
	})
	if asked.Bin && desk.NoBook(err) {
		review, err := desk.ReviewTags(a.options(), asked.Scans)
		if err != nil {
			return err
		}
		a.voice.notice(noBookNotice())
		if sheet.File != "" {
			return a.wrote(desk.PrintReviewOfTags(review, sheet))
		}
		return a.tellReview(review, nil, all)
	}
	return err
}

func (a *app) tellReview(review desk.Review, pieces map[inventory.Number]desk.PieceLine, all bool) error {
	a.sayReview(review, all)
	return a.voice.told(reviewObject(review, pieces))
}
