package cli

import (
	"time"

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

func noBookNotice() inventory.Notice {
	return inventory.Notice{Text: "there is no book here: this is from the tags alone", Hint: "name the book with --book, or get one back with steeltally rebuild"}
}

// reviewTold is a look back for programs.
type reviewTold struct {
	At        time.Time     `json:"at"`
	Findings  []findingTold `json:"findings"`
	Machines  []handTold    `json:"machines"`
	Operators []handTold    `json:"operators"`
	Pieces    int           `json:"pieces"`
	Players   []any         `json:"players"` // playerTold, and unworked
	Removals  []removalTold `json:"removals"`
	Scope     string        `json:"scope"`

	// of a bin alone
	Duplicates []desk.Apart `json:"duplicates,omitzero"`
	Foreign    []desk.Apart `json:"foreign,omitzero"`
	Misplaced  []desk.Apart `json:"misplaced,omitzero"`
	Stale      []desk.Apart `json:"stale,omitzero"`
	Unknown    []desk.Apart `json:"unknown,omitzero"`
}

type findingTold struct {
	desk.Finding
	Middle bound `json:"middle"`
	Low    bound `json:"low"`
	High   bound `json:"high"`
}

// playerTold is a player; null is what nobody can say.
type playerTold struct {
	*desk.PlayerReview
	Sets    int          `json:"sets"`
	Days    *desk.Spread `json:"life_days"`
	Times   *desk.Spread `json:"life_sessions"`
	Grinds  *desk.Spread `json:"life_grinds"`
	Heights *desk.Spread `json:"removal_height_mm"`
	Loss    *desk.Loss   `json:"loss_mm_per_pass"`
	Sides   *sidesTold   `json:"left_over_right"`
}

type sidesTold struct {
	desk.Sides
	Low   bound `json:"low"`
	High  bound `json:"high"`
	Shows bound `json:"would_show"`
}

// removalTold is a piece that is done with.
type removalTold struct {
	Number inventory.Number `json:"number"`
	*desk.Life
	Side            inventory.Side `json:"side"`
	*desk.PieceLine                // nil where the book does not know it
	Short           string         `json:"short"`
	Order           int            `json:"set_order"`
	Below           bool           `json:"below_change_height"`
	Hollow          string         `json:"hollow,omitempty"`
	Source          string         `json:"source"` // book or tag
}

type handTold struct {
	desk.Hand
	Loss *ratioTold `json:"loss_over_usual"`
}

type ratioTold struct {
	Ratio float64 `json:"ratio"`
	Low   bound   `json:"low"`
	High  bound   `json:"high"`
}

// piecesRemoved are the pieces that a review names as done with.
func piecesRemoved(r desk.Review) (numbers []inventory.Number) {
	for _, life := range r.Removals {
		if !life.FromTag {
			numbers = append(numbers, life.Number)
		}
	}
	return numbers
}

func reviewObject(r desk.Review, pieces map[inventory.Number]desk.PieceLine) reviewTold {
	told := reviewTold{
		At: r.At, Findings: []findingTold{}, Machines: handsTold(r.Machines), Operators: handsTold(r.Operators),
		Pieces: r.Pieces, Players: []any{}, Removals: []removalTold{}, Scope: r.Scope,
	}
	places := map[inventory.Number]int{}
	for _, p := range r.Players {
		told.Players = append(told.Players, playerOf(p))
		for _, set := range p.Sets {
			for _, life := range []*desk.Life{set.Left, set.Right} {
				if life != nil {
					places[life.Number] = set.Place
				}
			}
		}
	}
	told.Players = append(told.Players, unworked(r.Unworked)...)
	for _, life := range r.Removals {
		removal := removalOf(life, places[life.Number])
		if piece, known := pieces[life.Number]; known {
			removal.PieceLine = &piece
		}
		told.Removals = append(told.Removals, removal)
	}
	for _, f := range r.Findings {
		told.Findings = append(told.Findings, findingTold{f, bound(f.Middle), bound(f.Low), bound(f.High)})
	}
	if r.Bin != nil {
		told.Duplicates, told.Foreign, told.Unknown = apart(r.Bin.Duplicates), apart(r.Bin.Foreign), apart(r.Bin.Unknown)
		told.Stale, told.Misplaced = apart(r.Bin.Stale), apart(r.Bin.Misplaced)
	}
	return told
}

// apart keeps an empty list from being left out.
func apart(list []desk.Apart) []desk.Apart { return append([]desk.Apart{}, list...) }

func playerOf(p *desk.PlayerReview) playerTold {
	told := playerTold{
		p, len(p.Sets), known(p.Days.N, &p.Days), known(p.Times.N, &p.Times), known(p.Grinds.N, &p.Grinds), known(p.Heights.N, &p.Heights),
		known(p.Loss.Sets, &p.Loss), nil,
	}
	if s := p.Sides; s.Sets > 0 {
		told.Sides = &sidesTold{s, bound(s.Low), bound(s.High), bound(s.Detectable)}
	}
	return told
}

// known is what rests on something; nil where it rests on nothing.
func known[T any](on int, what *T) *T {
	if on == 0 {
		return nil
	}
	return what
}

func removalOf(l *desk.Life, order int) removalTold {
	told := removalTold{Life: l, Number: l.Number, Side: l.Side, Short: l.Number.Short(), Order: order, Below: l.Below(), Source: "book"}
	if l.FromTag {
		told.Source = "tag"
	}
	if !l.Hollow.Unknown() {
		told.Hollow = l.Hollow.String()
	}
	return told
}

func handsTold(hands []desk.Hand) []handTold {
	told := []handTold{}
	for _, h := range hands {
		hand := handTold{Hand: h}
		if h.Stretches > 0 {
			hand.Loss = &ratioTold{h.Ratio, bound(h.Low), bound(h.High)}
		}
		told = append(told, hand)
	}
	return told
}
