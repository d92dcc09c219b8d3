package desk

import (
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/review"
	"steeltally/inventory/standing"
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
