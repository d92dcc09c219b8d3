package cli

import (
	"fmt"
	"maps"
	"slices"
	"strings"
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

// sayReview tells what stands out first, then the players, then what is apart.
func (a *app) sayReview(r desk.Review, all bool) {
	a.voice.say("%s: %s done with", r.Scope, desk.SayCount(r.Pieces, "piece"))
	a.voice.say("")
	a.sayFindings(r, all)
	a.sayPlayers(r)
	a.sayUnworked(r.Unworked)
	a.sayHands(r)
	if r.Bin != nil {
		a.sayApart("scanned more than once", r.Bin.Duplicates)
		a.sayApart("foreign, or not whole", r.Bin.Foreign)
		a.sayApart("not known", r.Bin.Unknown)
		a.sayApart("old tags", r.Bin.Stale)
		a.sayApart("misplaced", r.Bin.Misplaced)
	}
}

func (a *app) sayFindings(r desk.Review, all bool) {
	differ, not := 0, 0
	for _, f := range r.Findings {
		if f.Verdict != desk.Differs {
			not++
			continue
		}
		if differ++; differ == 1 {
			a.voice.say("WHAT STANDS OUT")
		}
		a.voice.say("- %s", f.Words)
	}
	if differ == 0 {
		a.voice.say("Nothing stands out that chance alone could not bring about.")
	}
	if !all {
		a.sayLooked(r)
		return
	}
	if not > 0 {
		a.voice.say("")
		a.voice.say("CAN'T SAY")
	}
	for _, f := range r.Findings {
		if f.Verdict != desk.Differs {
			a.voice.say("- %s", f.Words)
		}
	}
	a.voice.say("")
}

// lookedAt names what was compared, by the kind of finding.
var lookedAt = map[string]string{
	"sides": "left against right of %s", "removal-height": "heights at removal through the season", "model": "%s",
	"lot": "%s", "zone": "places at which it breaks", "side": "left against right in breaks", "break-height": "whether low steel breaks more",
	"operator": "%s at the wheel", "machine": "%s",
}

// sayLooked sums up where nothing can be said.
func (a *app) sayLooked(r desk.Review) {
	counts := map[string]int{}
	var kinds []string
	for _, f := range r.Findings {
		if f.Verdict == desk.Differs {
			continue
		}
		if counts[f.Kind]++; counts[f.Kind] == 1 {
			kinds = append(kinds, f.Kind)
		}
	}
	var words []string
	things := map[string]string{"sides": "player", "model": "model", "lot": "lot", "operator": "person", "machine": "machine"}
	for _, kind := range kinds {
		word := lookedAt[kind]
		if strings.Contains(word, "%s") {
			word = fmt.Sprintf(word, desk.SayCount(counts[kind], things[kind]))
		}
		words = append(words, word)
	}
	if len(words) > 0 {
		a.voice.say("Can't say: %s. --all tells each with its figures.", list(words))
	}
	a.voice.say("")
}

func (a *app) sayPlayers(r desk.Review) {
	var rows [][]string
	for _, p := range r.Players {
		if p.Pieces == 0 {
			continue
		}
		rows = append(rows, []string{
			sayCount(p.Sweater), shorten(p.Name), fmt.Sprint(p.Pieces), fmt.Sprint(len(p.Sets)), saySpread(p.Days, 0),
			saySpread(p.Times, 0), saySpread(p.Grinds, 0), sayLoss(p.Loss), sayHeightsOff(p), sayReasons(p.Reasons), fmt.Sprint(p.Incidents),
		})
	}
	if len(rows) == 0 {
		return
	}
	a.voice.table([]string{"no", "name", "pieces", "sets", "days", "sessions", "grinds", "loss a pass", "height off", "reasons", "damages"}, rows)
	a.voice.say("")
	a.voice.say("Days, sessions and grinds a set lasted, and heights: the middle one, from the lowest to the highest.")
	a.voice.say("Loss a pass in mm: the middle guess, and what holds for 8 of 10 new runners.")
}

// saySpread is the middle one, from the lowest to the highest: "14 (9–21)".
func saySpread(s desk.Spread, decimals int) string {
	if s.N == 0 {
		return "–"
	}
	if s.N == 1 || s.Low == s.High {
		return fmt.Sprintf("%.*f", decimals, s.Middle)
	}
	return fmt.Sprintf("%.*f (%.*f–%.*f)", decimals, s.Middle, decimals, s.Low, decimals, s.High)
}

func sayLoss(l desk.Loss) string {
	if l.Sets == 0 {
		return "can't say"
	}
	return fmt.Sprintf("%.4f (%.4f–%.4f), %s", l.Middle, l.Low, l.High, desk.SayCount(l.Sets, "set"))
}

// sayHeightsOff is the height at removal and how many were below the change height.
func sayHeightsOff(p *desk.PlayerReview) string {
	line := saySpread(p.Heights, 1)
	if p.Below > 0 {
		line += fmt.Sprintf(", %d below", p.Below)
	}
	if p.Refused > 0 {
		line += fmt.Sprintf(" (%d after a no)", p.Refused)
	}
	return line
}

func sayReasons(reasons map[inventory.Why]int) string {
	var words []string
	for _, reason := range slices.Sorted(maps.Keys(reasons)) {
		name := string(reason)
		if name == "" {
			name = "not said"
		}
		words = append(words, fmt.Sprintf("%s %d", name, reasons[reason]))
	}
	return strings.Join(words, ", ")
}

func (a *app) sayHands(r desk.Review) {
	var rows [][]string
	for _, h := range append(slices.Clone(r.Operators), r.Machines...) {
		share := "can't say"
		if h.Stretches > 1 {
			share = fmt.Sprintf("%.0f %% (%.0f–%.0f %%) of the usual", 100*h.Ratio, 100*h.Low, 100*h.High)
		}
		rows = append(rows, []string{h.Kind, h.Name, fmt.Sprint(h.Passes), share})
	}
	if len(rows) == 0 {
		return
	}
	a.voice.say("")
	a.voice.table([]string{"at the wheel", "", "passes", "loss a pass"}, rows)
}

func (a *app) sayApart(heading string, list []desk.Apart) {
	if len(list) == 0 {
		return
	}
	a.voice.say("")
	a.voice.say("%s: %d", heading, len(list))
	for _, apart := range list {
		name := apart.Number.Short()
		if name == "" {
			name = apart.Scan
		}
		a.voice.say("  %s  %s", name, apart.What)
	}
}
