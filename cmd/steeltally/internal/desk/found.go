package desk

import (
	"slices"
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
	CameOff     string // a time as people type it
	Place       inventory.Place
}

// OldReading is what was made of an inscription.
type OldReading struct {
	inventory.Inscription
	Player     inventory.Number   // zero: nobody knows
	Candidates []inventory.Member // where the player is not sure
	Place      inventory.Place
}

// ReadOld makes out of an old piece's inscription what the record allows: a sweater is
// not a person, so its player counts only where one wore it when the steel came off.
func (d *Desk) ReadOld(old OldPiece) (OldReading, error) {
	var off *inventory.When
	if old.CameOff != "" {
		when, err := inventory.ParseWhen(old.CameOff, d.zone)
		if err != nil {
			return OldReading{}, &inventory.BadValue{Reason: err.Error()}
		}
		off = &when
	}
	var reading OldReading
	err := d.ask(func(v inventory.View, _ time.Time) (err error) {
		reading, err = d.readOld(v, old, off)
		return err
	})
	return reading, err
}

// readOld is ReadOld with the time that it came off; nil: as it stands there.
func (d *Desk) readOld(v inventory.View, old OldPiece, off *inventory.When) (OldReading, error) {
	reading := OldReading{Inscription: inventory.ReadInscription(old.Inscription, d.options.Now(), d.zone)}
	if old.Side != "" {
		reading.Side = old.Side
	}
	if off != nil {
		reading.CameOff = *off
	}
	var err error
	if reading.Place, err = named(v, old.Place); err != nil || old.Player == "" {
		reading.guess(v, d.options.Now())
		return reading, err
	}
	reading.Player, err = resolvePlayer(v, old.Player, d.options.Now())
	return reading, err
}

// guess finds who wore the sweater when the steel came off; failing that, who wears it
// now, for a person to confirm.
func (r *OldReading) guess(v inventory.View, now time.Time) {
	if r.Sweater == 0 {
		return
	}
	roster := inventory.RosterOf(v)
	if !r.CameOff.Unknown() {
		if wore := woreIt(roster, r.Sweater, r.CameOff); len(wore) == 1 {
			r.Player = wore[0]
			return
		}
	}
	r.Candidates = roster.Wearing(r.Sweater, now)
}

// woreIt lists who wore a sweater at the start or at the end of a vague time.
func woreIt(roster *inventory.Roster, sweater int, when inventory.When) []inventory.Number {
	var players []inventory.Number
	for _, at := range []time.Time{when.Start, when.End.Add(-time.Second)} {
		for _, member := range roster.Wearing(sweater, at) {
			if !slices.Contains(players, member.Player) {
				players = append(players, member.Player)
			}
		}
	}
	return players
}

// FindOld enters an old piece and gives its number.
func (d *Desk) FindOld(r OldReading) (inventory.Number, Done, error) {
	done, err := d.do(r.deed())
	return made(done, func(b *inventory.FoundOld) inventory.Number { return b.Piece }), done, err
}

// deed enters the piece as it was read.
func (r *OldReading) deed() deeds.FindOld {
	deed := deeds.FindOld{Player: r.Player, Sweater: r.Sweater, Side: r.Side, Inscription: r.Text, CameOff: r.CameOff}
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
