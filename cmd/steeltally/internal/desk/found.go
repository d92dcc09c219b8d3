package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// OldPiece is an old runner with marker strokes only, as it was read out; what is empty
// is taken from the inscription.
type OldPiece struct {
	Inscription string
	Player      string
	Side        inventory.Side
	CameOff     string // a time as people type or write it
	Place       inventory.Place
	Hand        inventory.DateOrders // what is known of how dates are written
}

// OldReading is one way to read an inscription, and what the record makes of it.
type OldReading struct {
	inventory.Inscription
	Player     inventory.Number   // zero: nobody knows
	Candidates []inventory.Member // where the player is not sure
	Place      inventory.Place
	written    inventory.Inscription // without what was told beside it
}

// FoundPiece is what was entered of one old piece.
type FoundPiece struct {
	Number      inventory.Number `json:"number"`
	Inscription string           `json:"inscription"`
	Sweater     int              `json:"sweater,omitempty"`
	Player      inventory.Number `json:"player,omitzero"`
	Side        inventory.Side   `json:"side,omitempty"`
	CameOff     inventory.When   `json:"came_off"`
	YearGuessed bool             `json:"year_guessed,omitempty"` // none is written: the last one
	Strokes     string           `json:"strokes,omitempty"`
	PairsBefore int              `json:"pairs_before,omitempty"` // that these stand for
	Heights     string           `json:"heights_written_mm,omitempty"`
	Read        string           `json:"read_as"`
}

// ReadOld makes out of an old piece's inscription what the record allows, in all ways to
// read it: a sweater is not a person, so its player counts only where one wore it when
// the steel came off.
func (d *Desk) ReadOld(old OldPiece) (readings []OldReading, err error) {
	off, err := d.readOff(old.CameOff, old.Hand)
	if err != nil {
		return nil, err
	}
	err = d.ask(func(v inventory.View, _ time.Time) error {
		readings, err = d.readOld(v, old, off)
		return err
	})
	return distinct(readings), err
}

// readOff reads when a piece came off; nil where it is not said.
func (d *Desk) readOff(text string, hand inventory.DateOrders) (*inventory.When, error) {
	if text == "" {
		return nil, nil
	}
	when, err := inventory.ParseDate(text, hand, d.options.Now(), d.zone)
	return &when, err
}

// readOld is ReadOld with the time that it came off; nil: as it stands there.
func (d *Desk) readOld(v inventory.View, old OldPiece, off *inventory.When) ([]OldReading, error) {
	if n, err := inventory.ParseNumber(old.Inscription); err == nil {
		return nil, inventory.Refuse(n.Short()+" is a number of ours, so that it has a tag", "scan its tag; rebuild --from-tags takes in what this book does not know")
	}
	told := OldReading{}
	var err error
	if told.Place, err = named(v, old.Place); err == nil && old.Player != "" {
		told.Player, err = resolvePlayer(v, old.Player, d.options.Now())
	}
	if err != nil {
		return nil, err
	}
	ways, err := inventory.ReadInscription(old.Inscription, old.Hand, d.options.Now(), d.zone)
	if err != nil && old.Side != "" && off != nil && told.Player != 0 {
		ways, err = []inventory.Inscription{{Text: strings.TrimSpace(old.Inscription)}}, nil // all is told beside it
	}
	var readings []OldReading
	for _, way := range ways {
		r := told
		r.Inscription, r.written = way, way
		if old.Side != "" {
			r.Side = old.Side
		}
		if off != nil {
			r.WrittenDate = inventory.WrittenDate{When: *off}
		}
		if r.Player == 0 {
			r.guess(v, d.options.Now())
		}
		readings = append(readings, r)
	}
	return readings, err
}

// distinct are readings that come to different pieces.
func distinct(readings []OldReading) []OldReading {
	var once []OldReading
	for _, r := range readings {
		if !slices.ContainsFunc(once, func(o OldReading) bool {
			return o.Sweater == r.Sweater && o.Side == r.Side && o.When == r.When && o.Player == r.Player
		}) {
			once = append(once, r)
		}
	}
	return once
}

// OneReading is the only way to read an inscription, or names all of them.
func (d *Desk) OneReading(readings []OldReading) (OldReading, error) {
	if len(readings) == 1 {
		return readings[0], nil
	}
	var ways, orders []string
	for _, r := range readings {
		ways = append(ways, r.Say("", d.zone))
		if order := "--dates " + string(r.Order); r.Order != "" && !slices.Contains(orders, order) {
			orders = append(orders, order)
		}
	}
	hint := "type it in full, such as 17 L 24 Nov 2024"
	if len(orders) == len(readings) {
		hint = "say which it is: " + strings.Join(orders, " or ")
	}
	return OldReading{}, inventory.RefuseValue(fmt.Sprintf("%q is %s", readings[0].Text, strings.Join(ways, "; or ")), hint)
}

// Say says what was made of an inscription: "17 Ansgar Lindqvarn, left, Nov 2024".
func (r *OldReading) Say(whose string, zone *time.Location) string {
	parts := []string{"no sweater", "no side", r.WrittenDate.Say(zone)}
	switch {
	case whose != "":
		parts[0] = whose
	case r.Sweater != 0:
		parts[0] = fmt.Sprintf("sweater %d", r.Sweater)
	}
	if r.Side != "" {
		parts[1] = string(r.Side)
	}
	if strokes := inventory.SayStrokes(r.Text); strokes != "" {
		parts = append(parts, strokes)
	}
	if r.Heights != "" {
		parts = append(parts, r.Heights+" mm is written on it")
	}
	return strings.Join(parts, ", ")
}

// guess finds who wore the sweater when the steel came off; failing that, who wears it
// now, for a person to confirm.
func (r *OldReading) guess(v inventory.View, now time.Time) {
	if r.Sweater == 0 {
		return
	}
	roster := inventory.RosterOf(v)
	if !r.When.Unknown() {
		if wore := roster.WoreIn(r.Sweater, r.When); len(wore) == 1 {
			r.Player = wore[0]
			return
		}
	}
	r.Candidates = roster.Wearing(r.Sweater, now)
}

// FindOld enters an old piece and gives its number.
func (d *Desk) FindOld(r OldReading) (FoundPiece, Done, error) {
	done, err := d.do(r.deed())
	if err != nil {
		return FoundPiece{}, done, err
	}
	whose := ""
	if r.Player != 0 {
		whose, err = d.NameOf(r.Player)
	}
	strokes, before := inventory.Strokes(r.Text)
	return FoundPiece{
		made(done, func(b *inventory.FoundOld) inventory.Number { return b.Piece }), r.Text, r.Sweater, r.Player, r.Side,
		r.When, r.Last, strokes, before, r.Heights, r.Say(whose, d.zone),
	}, done, err
}

// deed enters the piece as it was read.
func (r *OldReading) deed() deeds.FindOld {
	deed := deeds.FindOld{Player: r.Player, Sweater: r.Sweater, Side: r.Side, Inscription: r.Text, CameOff: r.When}
	if r.Place.Name != "" {
		deed.Place = &r.Place
	}
	return deed
}

// NameOf is what a player is called: sweater and name.
func (d *Desk) NameOf(player inventory.Number) (name string, err error) {
	err = d.ask(func(v inventory.View, at time.Time) (err error) {
		name, err = d.nameOf(v, player, at)
		return err
	})
	return name, err
}

func (d *Desk) nameOf(v inventory.View, player inventory.Number, at time.Time) (string, error) {
	p, err := inventory.PlayerOf(v, player)
	if err != nil {
		return "", err
	}
	return heading(p, at), nil
}
