package desk

import (
	"fmt"
	"math"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/review"
	"steeltally/inventory/standing"
	"steeltally/labels/report"
)

// ClaimAsked says what a maker is written about.
type ClaimAsked struct {
	review.Claimed
	Before  bool   `json:"chosen_before"` // the comparison was chosen before anybody looked at the figures
	Names   bool   `json:"-"`             // with the players' names
	Request string `json:"-"`             // what the maker is asked for
}

// Claim is a claim with what the sheet shows of each broken piece.
type Claim struct {
	review.Claim
	Asked  ClaimAsked
	At     time.Time
	Club   string
	Maker  string
	Thing  string // "holder" or "runner"
	Pieces []BrokenPiece
}

// BrokenPiece is one broken piece as a maker wants to know it.
type BrokenPiece struct {
	*Life
	Piece   PieceLine
	Broke   inventory.Dated[inventory.Damaged]
	Fitter  string // who noted that it was fitted
	Held    string // where it is kept now
	Altered string // what was ground besides hollows; engraving is not in the record
	Whose   string // the player; empty unless names are asked for
}

// Claim gathers what is known of a model's or a lot's broken pieces.
func (d *Desk) Claim(asked ClaimAsked) (Claim, error) {
	claim := Claim{Asked: asked, At: d.Instant()}
	err := d.ask(func(v inventory.View, at time.Time) error {
		claim.Club = inventory.ClubOf(v).Name
		model, known := v.Entity(inventory.ModelRef(asked.Model)).(*inventory.Model)
		if !known {
			return &inventory.Refusal{Reason: "no piece of model " + asked.Model + " is in this book", Hint: "check the name as it was given at stock-in"}
		}
		claim.Asked.Model, claim.Maker = model.Name, model.Maker
		return claim.compile(v, at)
	})
	if err != nil {
		return claim, err
	}
	return claim, d.fitters(&claim)
}

// compile compares the pieces of the kind that the model is of.
func (c *Claim) compile(v inventory.View, at time.Time) error {
	reader := review.NewReader(v, review.ReadSessions(v, firstSession(v, at), at), time.Time{}, at)
	for _, kind := range []inventory.Kind{inventory.KindHolder, inventory.KindRunner} {
		var lives []*review.Life
		found := false
		v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
			life, _ := reader.Life(n)
			lives = append(lives, life)
			found = found || strings.EqualFold(life.Model, c.Asked.Model)
			return true
		})
		if !found {
			continue
		}
		var err error
		c.Thing = kind.String()
		if c.Claim, err = c.Asked.Compile(lives, at); err != nil {
			return err
		}
		return c.pieces(v, reader, at)
	}
	return &inventory.Refusal{Reason: "no piece of model " + c.Asked.Model + " is in this book", Hint: "steeltally stockin enters pieces"}
}

// pieces adds what the record says of each broken piece.
func (c *Claim) pieces(v inventory.View, reader *review.Reader, at time.Time) error {
	if len(c.Broken) == 0 {
		return &inventory.Refusal{Reason: fmt.Sprintf("nothing of %s is recorded as cracked, broken or bent%s", c.Own.Name, inZone(c.Asked.Zone)), Hint: "steeltally damage notes what broke"}
	}
	for _, life := range c.Broken {
		piece := BrokenPiece{Life: life, Piece: pieceLine(v, life.Number, at), Broke: c.Damages(life)[0], Altered: altered(v, life, at), Held: "not noted"}
		if place := standing.PlaceOf(v, life.Number, at); place.Name != "" {
			piece.Held = place.String()
		}
		if life.InUse {
			piece.Held = "still on a boot: take it off"
		}
		if c.Asked.Names {
			piece.Whose, _ = reader.Who(life.Player)
		}
		c.Pieces = append(c.Pieces, piece)
	}
	return nil
}

func inZone(zone inventory.Zone) string {
	if zone == "" {
		return ""
	}
	return " at the " + string(zone)
}

// altered names works that changed a runner besides its hollow.
func altered(v inventory.View, life *Life, at time.Time) string {
	runner, ok := v.Entity(inventory.RefOf(life.Number)).(*inventory.Runner)
	if !ok {
		return "none recorded"
	}
	counts := map[inventory.WorkKind]int{}
	for _, work := range runner.Works.Until(at) {
		counts[work.Value.Kind]++
	}
	words := fmt.Sprintf("%d grinds", counts[inventory.WorkGrind])
	for _, kind := range []inventory.WorkKind{inventory.WorkNewHollow, inventory.WorkProfile, inventory.WorkNick} {
		if counts[kind] > 0 {
			words += fmt.Sprintf(", %s %d", kind, counts[kind])
		}
	}
	return words
}

// fitters adds who noted that each broken piece was fitted.
func (d *Desk) fitters(c *Claim) error {
	for i := range c.Pieces {
		entries, err := d.book.History(inventory.RefOf(c.Pieces[i].Number), 0)
		if err != nil {
			return err
		}
		for _, e := range entries {
			_, riveted := e.Body.(*inventory.Riveted)
			_, put := e.Body.(*inventory.PutIn)
			if e.VoidedBy == nil && (riveted || put) && !e.Happened.After(c.Pieces[i].Broke.When.Start) {
				c.Pieces[i].Fitter = e.Who
			}
		}
	}
	return nil
}

// PrintClaim writes the claim as a sheet for the maker.
func (d *Desk) PrintClaim(c Claim, sheet Sheet) (Written, error) {
	return d.print(sheet, report.Report{
		Title: c.title(), Notes: c.notes(d), Tables: []report.Table{d.brokenTable(c), d.howTable(c), d.photoTable(c), d.fittedTable(c)},
	})
}

func (c Claim) title() string {
	title := "Claim: " + c.Thing + " " + c.Asked.Model
	if c.Asked.Lot != "" {
		title += ", lot " + c.Asked.Lot
	}
	return title
}

// notes are the claim in words.
func (c Claim) notes(d *Desk) []string {
	to := "To the maker"
	if c.Maker != "" {
		to = "To " + c.Maker
	}
	notes := []string{
		fmt.Sprintf("%s, from %s, %s.", to, c.Club, c.At.In(d.zone).Format("2 January 2006")),
		"We hold the pieces listed here and can send them.",
	}
	notes = append(notes, c.Figures()...)
	request := c.Asked.Request
	if request == "" {
		request = "We ask for your finding on the pieces, for their replacement, and to be told whether the rest of the lot should be used."
	}
	return append(notes, request)
}

// Figures are the rates in plain words, and how the comparison was chosen.
func (c Claim) Figures() []string {
	lines := []string{fmt.Sprintf("Of %d fitted, %d cracked, broke or bent%s.", len(c.Fitted), len(c.Broken), inZone(c.Asked.Zone))}
	if c.Own.Sessions == 0 {
		return append(lines, "How many sessions they were used in is not known, so no rate is given.")
	}
	lines = append(lines, fmt.Sprintf("That is %d in %.0f sessions of use, unbroken ones included: %.1f in 1,000 (8 cases of 10: %.1f to %.1f).",
		c.Own.Incidents, c.Own.Sessions, c.Own.PerThousand, c.Own.Low, c.Own.High))
	if c.Rest.Sessions == 0 {
		return append(lines, "The record has nothing to compare them with.")
	}
	lines = append(lines, fmt.Sprintf("Of %s, %d in %.0f sessions: %.1f in 1,000 (%.1f to %.1f)%s.",
		c.Against, c.Rest.Incidents, c.Rest.Sessions, c.Rest.PerThousand, c.Rest.Low, c.Rest.High, c.times()))
	return append(lines, c.chosen())
}

// times says how many times as often they broke, and how often chance alone does that.
func (c Claim) times() string {
	if c.Chance >= 1 {
		return ""
	}
	ratio := "only these broke"
	if !math.IsInf(c.Ratio, 1) {
		ratio = fmt.Sprintf("these broke %.1f times as often", c.Ratio)
	}
	return fmt.Sprintf("; %s; chance alone makes so large a difference in %s", ratio, sayChance(c.Chance))
}

// sayChance writes a chance as people say it: "1 of 250 cases".
func sayChance(chance float64) string {
	switch {
	case chance < 0.0001:
		return "fewer than 1 of 10,000 cases"
	case chance > 0.1:
		return fmt.Sprintf("%.0f of 100 cases: that is no evidence", 100*chance)
	}
	return fmt.Sprintf("1 of %.0f cases", 1/chance)
}

// chosen says honestly how the comparison came about.
func (c Claim) chosen() string {
	if c.Asked.Before {
		return "This comparison was chosen before anybody looked at the figures."
	}
	return "This comparison was chosen after looking at the figures, which makes it weaker than it seems."
}

// brokenTable lists the pieces that broke.
func (d *Desk) brokenTable(c Claim) report.Table {
	t := report.Table{Title: "The pieces that broke", Columns: columns("number", "size", "side", "lot", "order", "fitted", "fitted by")}
	if c.Asked.Names {
		t.Columns = append(t.Columns, report.Column{Title: "player"})
	}
	for _, p := range c.Pieces {
		row := []string{p.Number.Short(), fmt.Sprint(p.Size), string(p.Side), dash(p.Lot), dash(p.Order), p.In.SayDay(d.zone), dash(p.Fitter)}
		if c.Asked.Names {
			row = append(row, p.Whose)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// howTable lists how they broke, and where they are.
func (d *Desk) howTable(c Claim) report.Table {
	t := report.Table{
		Title:   "How they broke",
		Notes:   []string{"Engraved, drilled or otherwise altered: ________________ (not in the record; fill in by hand)."},
		Columns: columns("number", "sessions", "broke", "how", "puck seen", "grinding", "kept"),
	}
	for _, p := range c.Pieces {
		t.Rows = append(t.Rows, []string{p.Number.Short(), counted(p.Times), p.Broke.When.SayDay(d.zone), p.how(), p.puck(), p.Altered, p.Held})
	}
	return t
}

// how says the damage: "crack, rear-tower, outer face".
func (p BrokenPiece) how() string {
	words := []string{string(p.Broke.Value.Mode)}
	if p.Broke.Value.Zone != "" {
		words = append(words, string(p.Broke.Value.Zone))
	}
	if face := p.Broke.Value.Face; face != "" && face != "unknown" {
		words = append(words, face+" face")
	}
	return strings.Join(words, ", ")
}

// puck says whether a puck was seen to hit it.
func (p BrokenPiece) puck() string {
	switch p.Broke.Value.Cause {
	case "puck":
		return "yes"
	case "", "unknown":
		return "not known"
	}
	return "no: " + p.Broke.Value.Cause
}

// photoTable lists the photographs by file.
func (d *Desk) photoTable(c Claim) report.Table {
	t := report.Table{
		Title: "Photographs", Notes: []string{"Files in the folder " + photosFolder + " of the book, under the SHA-256 of what is in them."},
		Columns: columns("number", "file"), Empty: "None.",
	}
	for _, p := range c.Pieces {
		for _, photo := range p.Broke.Value.Photos {
			t.Rows = append(t.Rows, []string{p.Number.Short(), photo})
		}
	}
	return t
}

// fittedTable lists all that were fitted, broken or not.
func (d *Desk) fittedTable(c Claim) report.Table {
	t := report.Table{
		Title:   "All that were fitted, broken or not",
		Notes:   []string{fmt.Sprintf("%d fitted; %d more never used.", len(c.Fitted), c.InStock)},
		Columns: columns("number", "size", "side", "lot", "order", "fitted", "sessions", "state"),
	}
	unsafe := d.Unsafe()
	for _, l := range c.Fitted {
		state := "off, not broken"
		switch {
		case len(c.Damages(l)) > 0:
			state = "broke"
		case len(review.Claimed{}.Damages(l)) > 0:
			state = "broke elsewhere"
		case l.InUse:
			state = "in use"
		case unsafe.In(l.Number.Short()):
			state = "off, may have broken"
		}
		t.Rows = append(t.Rows, []string{l.Number.Short(), fmt.Sprint(l.Size), string(l.Side), dash(l.Lot), dash(l.Order), l.In.SayDay(d.zone), counted(l.Times), state})
	}
	return t
}

func columns(titles ...string) []report.Column {
	list := make([]report.Column, len(titles))
	for i, title := range titles {
		list[i].Title = title
	}
	return list
}

func dash(word string) string {
	if word == "" {
		return "–"
	}
	return word
}

func counted(n *int) string {
	if n == nil {
		return "–"
	}
	return fmt.Sprint(*n)
}
