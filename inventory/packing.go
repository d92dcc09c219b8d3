package inventory

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Packed puts pieces and kits into a trunk for a trip, or takes them out again.
type Packed struct {
	Trip   string     `json:"trip"`
	Trunk  Number     `json:"trunk,omitempty"` // zero: nobody said which
	Place  *Place     `json:"place,omitempty"` // where the pieces lie by that: the trunk
	Pieces []Number   `json:"pieces,omitempty"`
	Kits   []KitCount `json:"kits,omitempty"`
	Out    bool       `json:"out,omitempty"`
}

// Kind is the word in the record.
func (*Packed) Kind() string { return "packed" }

// Touches names the trip, the trunk and the pieces.
func (b *Packed) Touches() []Ref {
	return append(append(numbered(b.Trunk), numbered(b.Pieces...)...), TripRef(b.Trip))
}

func (b *Packed) line(t Teller, _ *Event) string {
	verb, where := "packed", "in no trunk"
	if b.Out {
		verb, where = "unpacked", "from no trunk"
	}
	if b.Trunk != 0 {
		where = ContainerName(t.View, b.Trunk)
	}
	var parts []string
	if len(b.Pieces) > 0 {
		parts = append(parts, sayPieces(b.Pieces))
	}
	for _, kit := range b.Kits {
		parts = append(parts, fmt.Sprintf("%d %s", kit.Count, kit.Kit))
	}
	return clipName(fmt.Sprintf("trip %s, %s, %s: %s", b.Trip, verb, where, strings.Join(parts, ", ")))
}

// KitCount is how many of a kit's things there are.
type KitCount struct {
	Kit   string `json:"kit"`
	Count int    `json:"count"`
}

// Loaded are trunks that were counted at a leg of a trip.
type Loaded struct {
	Trip   string   `json:"trip"`
	Leg    string   `json:"leg"` // out or back
	Trunks []Number `json:"trunks"`
}

// Kind is the word in the record.
func (*Loaded) Kind() string { return "loaded" }

// Touches names the trip and the trunks.
func (b *Loaded) Touches() []Ref { return append(numbered(b.Trunks...), TripRef(b.Trip)) }

func (b *Loaded) line(Teller, *Event) string {
	return fmt.Sprintf("trip %s, %s, trunks counted: %d", clipName(b.Trip), OrDash(b.Leg), len(b.Trunks))
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
