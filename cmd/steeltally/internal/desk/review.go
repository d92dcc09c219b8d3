package desk

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/review"
	"steeltally/inventory/wear"
	"steeltally/labels/drawing"
	"steeltally/labels/plot"
)

// ReviewAsked says what is looked back on: everything, unless something is told.
type ReviewAsked struct {
	Player string
	Season string   // "2025/26", or any time as typed
	Scans  []string // a bin's tags
	Bin    bool     // the scans are meant, also if there are none
}

// Review is what is told of it.
type Review struct {
	review.Review
	Club      string
	OnePlayer bool
	At        time.Time
	Scope     string // "the whole club", "17 Ansgar Lindqvarn, season 2025/26"
	Bin       *review.Bin
}

// ReviewRead is what a review looks back on, as it was read.
type ReviewRead struct {
	options  Options
	review   Review
	lives    []*review.Life
	span     review.Span
	who      map[inventory.Number]reviewed
	unworked []inventory.Unworked // pieces that could not be read
}

// reviewed is a player as far as a review asks.
type reviewed struct {
	name       string
	goalkeeper bool
}

// Review looks back on a bin, a player, a season or the whole club.
func (d *Desk) Review(asked ReviewAsked) (Review, error) {
	read, err := d.ReadReview(asked)
	if err != nil {
		return Review{}, err
	}
	return read.Compile()
}

// ReadReview reads what a review looks back on.
func (d *Desk) ReadReview(asked ReviewAsked) (ReviewRead, error) {
	r := ReviewRead{options: d.options, review: Review{At: d.Instant()}}
	err := d.book.Read(func(v inventory.View) (err error) {
		r.review.Club = inventory.ClubOf(v).Name
		if r.span, err = d.reviewSpan(asked, r.review.At); err != nil {
			return err
		}
		return r.read(v, asked)
	})
	return r, err
}

// ReviewTags looks back on a bin where there is no book: the tags are all that is known.
func ReviewTags(o Options, scans []string) (Review, error) {
	r := ReviewRead{options: o, review: Review{At: o.Now()}, span: review.Span{Until: o.Now()}}
	if err := r.read(&inventory.Ledger{}, ReviewAsked{Scans: scans, Bin: true}); err != nil {
		return Review{}, err
	}
	return r.Compile()
}

// NoBook tells whether an error says that there is no book.
func NoBook(err error) bool {
	var absent *book.AbsentError
	return errors.As(err, &absent)
}

// reviewSpan is the time that is looked back on.
func (d *Desk) reviewSpan(asked ReviewAsked, at time.Time) (review.Span, error) {
	span := review.Span{Until: at}
	if asked.Season == "" {
		return span, nil
	}
	when, err := inventory.ParseWhen(asked.Season, d.zone)
	if err != nil || when.Unknown() || when.Exact() {
		return span, &inventory.BadValue{Reason: asked.Season + " is no season", Hint: "write it as 2025/26, or a year or a month: 2025-11"}
	}
	span.From = when.Start
	if when.End.Before(at) {
		span.Until = when.End
	}
	return span, nil
}

func (r *ReviewRead) read(v inventory.View, asked ReviewAsked) (err error) {
	from := r.span.From
	if from.IsZero() {
		from = firstSession(v, r.span.Until)
	}
	reader := review.NewReader(v, review.ReadSessions(v, from, r.span.Until), r.span.From, r.span.Until)
	if r.lives, err = r.review.lives(v, reader, asked, r.span); err != nil {
		return err
	}
	r.unworked = reader.Unworked()
	r.who = map[inventory.Number]reviewed{}
	for _, life := range r.lives {
		name, goalkeeper := reader.Who(life.Player)
		r.who[life.Player] = reviewed{name, goalkeeper}
	}
	return nil
}

// Compile works out what is told of it, without the book.
func (r ReviewRead) Compile() (Review, error) {
	who := func(n inventory.Number) (string, bool) { return r.who[n].name, r.who[n].goalkeeper }
	compiled, err := review.Compile(r.lives, who, r.span, wear.Defaults())
	if err != nil {
		return r.review, err
	}
	r.review.Review = *compiled
	r.review.Unworked = append(r.review.Unworked, r.unworked...)
	r.options.keepUnworked("a review", r.review.Unworked)
	if r.review.Bin != nil {
		r.review.Pieces = len(r.lives)
	}
	return r.review, nil
}

// furthestBack is how far before an instant sessions are counted from: longer than any
// piece is kept in use.
const furthestBack = 15

func firstSession(_ inventory.View, until time.Time) time.Time {
	return until.AddDate(-furthestBack, 0, 0)
}

// lives are the pieces that the review is about.
func (r *Review) lives(v inventory.View, reader *review.Reader, asked ReviewAsked, span review.Span) ([]*review.Life, error) {
	r.Scope = "the whole club"
	if asked.Bin {
		bin := reader.SortBin(asked.Scans)
		r.Bin, r.Scope = &bin, "a bin"
		return bin.Lives, nil
	}
	var player inventory.Number
	if asked.Player != "" {
		n, err := lookUpPlayer(v, asked.Player, r.At)
		if err != nil {
			return nil, err
		}
		player, r.OnePlayer = n, true
		r.Scope, _ = reader.Who(n)
	}
	if asked.Season != "" {
		r.Scope += ", " + asked.Season
	}
	var lives []*review.Life
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder} {
		v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
			if life, known := reader.Life(n); known && life.Within(span.From) && (player == 0 || life.Player == player) {
				lives = append(lives, life)
			}
			return true
		})
	}
	return lives, nil
}

// What a review is made of; see package review.
type (
	Life         = review.Life
	PlayerReview = review.Player
	Spread       = review.Spread
	Loss         = review.Loss
	Apart        = review.Apart
	Hand         = review.Hand
	Sides        = review.Sides
	Finding      = review.Finding
)

// Differs is the verdict of a finding; every other one is that nobody can say.
const Differs = review.Differs

// player is one player's page.
func (p *reviewPages) player(player *PlayerReview) drawing.Drawing {
	page := p.page(player.Say())
	for _, line := range p.facts(player) {
		page.Note(line)
	}
	page.Skip()
	page.Row(p.heights(player).Chart().Draw(page.Inside(), 78))
	page.Row(p.strip(player, page.Inside()))
	const height = 52
	page.Row(
		plot.Removals("Height at removal", p.removals(player), false).Draw(page.Part(2), height),
		plot.SetsApart("Left against right", player.SetsApart()).Draw(page.Part(2), height))
	page.Row(p.lastSets(player, page.RowsThatFit(0)).Draw(page.Inside()))
	return page.Drawing
}

// facts are the player's figures in words.
func (p *reviewPages) facts(player *PlayerReview) []string {
	lines := []string{fmt.Sprintf("%s done with, %s; a set lasts %s days, %s sessions, %s grinds (the middle one, lowest to highest).",
		SayCount(len(player.Sets), "set"), SayCount(player.Pieces, "piece"), saySpread(player.Days, 0), saySpread(player.Times, 0), saySpread(player.Grinds, 0))}
	if loss := player.Loss; loss.Sets > 0 {
		lines = append(lines, fmt.Sprintf("A pass takes about %.4f mm off (%.4f to %.4f), from %s.", loss.Middle, loss.Low, loss.High, SayCount(loss.Sets, "set")))
	}
	if player.Heights.N > 0 {
		line := fmt.Sprintf("Taken off at %s mm; %d of %d runners below the change height", saySpread(player.Heights, 1), player.Below, player.Heights.N)
		if player.Refused > 0 {
			line += fmt.Sprintf(", %d of them after he had said no", player.Refused)
		}
		lines = append(lines, line+".")
	}
	for _, f := range p.review.Findings {
		if f.Kind == "sides" && f.About == player.Say() {
			lines = append(lines, f.Words)
		}
	}
	if due, on := p.due[player.Number]; on {
		lines = append(lines, sayOn(due))
	}
	return lines
}

// sayOn tells of the set that is on.
func sayOn(due Due) string {
	if due.Passes == nil {
		return fmt.Sprintf("Set %s is on: %s.", due.Letter, due.CannotSay)
	}
	line := fmt.Sprintf("Set %s is on: about %.0f passes left (%.0f to %.0f)", due.Letter, due.Passes.Middle, due.Passes.Low, due.Passes.High)
	if due.Dates != nil && !due.Dates.Middle.IsZero() {
		line += ", due about " + due.Dates.Middle.Format("2 Jan")
	}
	return line + "."
}

// saySpread is the middle one, from the lowest to the highest.
func saySpread(s Spread, decimals int) string {
	if s.N == 0 {
		return "–"
	}
	if s.Low == s.High {
		return fmt.Sprintf("%.*f", decimals, s.Middle)
	}
	return fmt.Sprintf("%.*f (%.*f–%.*f)", decimals, s.Middle, decimals, s.Low, decimals, s.High)
}

// heights are the player's steel: earlier runners, and what is on.
func (p *reviewPages) heights(player *PlayerReview) plot.PlayerHeights {
	h := plot.PlayerHeights{Title: "Height against passes: earlier runners grey, what is on black; dashed, and due within the bold line"}
	for _, life := range player.Lives() {
		if life.Steel() && !life.InUse {
			if c := life.Curve(p.review.At); len(c.Passes) > 1 {
				h.Earlier = append(h.Earlier, plot.Worn(c))
			}
			if life.Change != nil {
				h.Change = float64(*life.Change)
			}
		}
	}
	if due, on := p.due[player.Number]; on {
		showDue(due, p.curves, &h)
	}
	return h
}

// ahead is the forecast of the side that is due first.
func ahead(due Due, h plot.PlayerHeights) *plot.Ahead {
	if due.Passes == nil {
		return nil
	}
	a := &plot.Ahead{Low: due.Passes.Low, Middle: due.Passes.Middle, High: due.Passes.High}
	for i, side := range due.Sides {
		if i > 0 && float64(*side.Now) >= a.Height {
			continue
		}
		parts := h.Left
		if side.Side == inventory.Right {
			parts = h.Right
		}
		last, measured := plot.End(parts)
		a.Passes, a.Height = last.Passes+float64(due.Measure.Since), float64(*side.Now)
		a.LastPasses, a.Last = a.Passes, a.Height
		if measured {
			a.LastPasses, a.Last = last.Passes, last.Height
		}
	}
	return a
}

// strip is when the player's sets went on and came off.
func (p *reviewPages) strip(player *PlayerReview, width geometry.Millimetre) drawing.Drawing {
	var uses []plot.Use
	for _, set := range player.Sets {
		if !set.In.Unknown() && !set.Out.Unknown() {
			uses = append(uses, plot.Use{From: p.local(set.In.Start), Until: p.local(set.Out.Start), Name: fmt.Sprint(set.Place), Broken: set.Broke()})
		}
	}
	slices.SortStableFunc(uses, func(a, b plot.Use) int { return a.From.Compare(b.From) })
	return plot.Strip("Sets on and off, numbered as they came off; a cross where one broke", uses, p.local(p.review.At), width)
}

// lastSets is a table of the last sets, as many as there is room for.
func (p *reviewPages) lastSets(player *PlayerReview, most int) plot.Rows {
	rows := plot.Rows{Title: "The last sets", Columns: []plot.Column{
		{Title: "set", Width: 12, Right: true}, {Title: "off", Width: 28, Right: true}, {Title: "days", Width: 14, Right: true},
		{Title: "grinds", Width: 16, Right: true}, {Title: "passes l/r", Width: 28, Right: true}, {Title: "left, mm", Width: 24, Right: true},
		{Title: "right, mm", Width: 24, Right: true}, {Title: "reason", Width: 30, Right: true},
	}}
	sets := player.Sets
	for _, set := range sets[max(0, len(sets)-most):] {
		rows.Cells = append(rows.Cells, p.setRow(set))
	}
	return rows
}

func (p *reviewPages) setRow(set *review.WornSet) []plot.Cell {
	heights, passes := [2]string{"–", "–"}, [2]string{"–", "–"}
	days, grinds, reason := "–", "–", "–"
	for i, life := range []*Life{set.Left, set.Right} {
		if life == nil {
			continue
		}
		if life.Final != nil {
			heights[i] = fmt.Sprintf("%.2f", float64(*life.Final))
		}
		passes[i] = fmt.Sprint(life.Passes)
		if life.Unknown {
			passes[i] += "+?"
		}
		if life.Days != nil {
			days = fmt.Sprint(*life.Days)
		}
		grinds, reason = fmt.Sprint(life.Grinds), string(life.Reason)
	}
	off := "date unknown"
	if !set.Out.Unknown() {
		off = p.day(set.Out.Start)
	}
	return []plot.Cell{{Text: fmt.Sprint(set.Place)}, {Text: off}, {Text: days}, {Text: grinds}, {Text: passes[0] + " / " + passes[1]}, {Text: heights[0]}, {Text: heights[1]}, {Text: reason}}
}
