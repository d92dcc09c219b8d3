package inventory

import (
	"slices"
	"time"
)

// Trip is one journey of the club: who comes along, what is in which trunk, and which
// trunks were counted out and back.
type Trip struct {
	Event   Key                `json:"event"`
	Name    string             `json:"name"`
	From    When               `json:"from"`
	To      When               `json:"to"`
	Players []Traveller        `json:"players,omitempty"` // of whom something was said
	Pieces  []PackedPiece      `json:"pieces,omitempty"`
	Kits    []PackedKit        `json:"kits,omitempty"`
	Out     Timeline[[]Number] `json:"out,omitempty"`
	Back    Timeline[[]Number] `json:"back,omitempty"`
}

// Traveller is a player of whom it was said whether he comes along.
type Traveller struct {
	Player Number `json:"player"`
	Stays  bool   `json:"stays,omitempty"`
}

// PackedPiece is a piece in a trunk; a zero trunk is one that nobody named.
type PackedPiece struct {
	Piece Number `json:"piece"`
	Trunk Number `json:"trunk,omitempty"`
	When  When   `json:"when"`
	Event Key    `json:"event"`
}

// PackedKit is a count of kits in a trunk.
type PackedKit struct {
	KitCount
	Trunk Number `json:"trunk,omitempty"`
}

// Apply folds one event.
func (t *Trip) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *TripNoted:
		t.Event, t.Name, t.From, t.To = e.Key, b.Trip, b.From, b.To
	case *Travelling:
		for _, n := range b.Players {
			t.say(n, b.Stay)
		}
	case *Packed:
		t.pack(e, b)
	case *Loaded:
		if b.Leg == LegBack {
			t.Back.add(e, b.Trunks)
		} else {
			t.Out.add(e, b.Trunks)
		}
	}
}

func (t *Trip) say(n Number, stays bool) {
	at := slices.IndexFunc(t.Players, func(p Traveller) bool { return p.Player == n })
	if at < 0 {
		at, t.Players = len(t.Players), append(t.Players, Traveller{Player: n})
	}
	t.Players[at].Stays = stays
}

// pack puts pieces where they were packed last; a piece is in one trunk only.
func (t *Trip) pack(e *Event, b *Packed) {
	for _, n := range b.Pieces {
		t.Pieces = slices.DeleteFunc(t.Pieces, func(p PackedPiece) bool { return p.Piece == n })
		if !b.Out {
			t.Pieces = append(t.Pieces, PackedPiece{n, b.Trunk, e.Happened, e.Key})
		}
	}
	for _, kit := range b.Kits {
		same := func(k PackedKit) bool { return SameName(k.Kit, kit.Kit) && k.Trunk == b.Trunk }
		t.Kits = slices.DeleteFunc(t.Kits, same)
		if !b.Out && kit.Count > 0 {
			t.Kits = append(t.Kits, PackedKit{kit, b.Trunk})
		}
	}
}

// Entered tells whether the trip was added.
func (t *Trip) Entered() bool { return t.Event != Key{} }

// Comes tells whether a player comes along: what was said of him, else otherwise.
func (t *Trip) Comes(n Number, otherwise bool) bool {
	for _, p := range t.Players {
		if p.Player == n {
			return !p.Stays
		}
	}
	return otherwise
}

// In tells where a piece is packed, and whether it is.
func (t *Trip) In(n Number) (PackedPiece, bool) {
	at := slices.IndexFunc(t.Pieces, func(p PackedPiece) bool { return p.Piece == n })
	if at < 0 {
		return PackedPiece{}, false
	}
	return t.Pieces[at], true
}

// KitCount is how many of a kit's things are packed, in all trunks.
func (t *Trip) KitCount(name string) int {
	count := 0
	for _, kit := range t.Kits {
		if SameName(kit.Kit, name) {
			count += kit.Count
		}
	}
	return count
}

// Trunks lists the trunks that something was packed into, in order of number.
func (t *Trip) Trunks() []Number {
	var trunks []Number
	for _, p := range t.Pieces {
		trunks = append(trunks, p.Trunk)
	}
	for _, k := range t.Kits {
		trunks = append(trunks, k.Trunk)
	}
	return Distinct(trunks)
}

// Counted lists the trunks that were counted at a leg by an instant.
func (t *Trip) Counted(leg string, at time.Time) []Number {
	line := t.Out
	if leg == LegBack {
		line = t.Back
	}
	var trunks []Number
	for _, entry := range line.Until(at) {
		trunks = append(trunks, entry.Value...)
	}
	return Distinct(trunks)
}

// Distinct sorts numbers and leaves out zero and what is there twice.
func Distinct(numbers []Number) []Number {
	slices.Sort(numbers)
	return slices.DeleteFunc(slices.Compact(numbers), func(n Number) bool { return n == 0 })
}

// TrunksNotHere lists the trunks that a count should have found and did not: on the way
// out those that were packed, on the way back those that were taken along. What an
// earlier count of the same leg found is here.
func TrunksNotHere(trip *Trip, back bool, here []Number, at time.Time) []Number {
	expected, leg := trip.Trunks(), LegOut
	if back {
		leg = LegBack
		if out := trip.Counted(LegOut, at); len(out) > 0 {
			expected = out
		}
	}
	found := append(trip.Counted(leg, at), here...)
	return slices.DeleteFunc(slices.Clone(expected), func(n Number) bool { return slices.Contains(found, n) })
}
