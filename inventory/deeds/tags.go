package deeds

import (
	"fmt"

	"steeltally/inventory"
)

// NotePrints notes that tags came out.
type NotePrints []inventory.Printed

// Decide records them.
func (d NotePrints) Decide(_ inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	for i := range d {
		out.record(m.Happened, &d[i])
	}
	return out, nil
}

const mostBlank = 500

// ReserveBlank keeps numbers for blank tags of a kind, for good.
type ReserveBlank struct {
	Piece inventory.Kind // runner or holder
	Count int
}

// Decide keeps the next numbers of this station.
func (d ReserveBlank) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if d.Piece != inventory.KindRunner && d.Piece != inventory.KindHolder {
		return out, inventory.RefuseValue("blank tags are for runners and holders", "steeltally tag --blank 48 runner")
	}
	if d.Count < 1 || d.Count > mostBlank {
		return out, inventory.RefuseValue(fmt.Sprintf("%d blank tags: 1 to %d can be made at once", d.Count, mostBlank), "take more in several goes")
	}
	numbers, err := nextNumbers(v, d.Piece, d.Count, &out)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, &inventory.Reserved{Piece: d.Piece.String(), Station: numbers[0].Station(), First: numbers[0].Running(), Count: d.Count})
	return out, nil
}

// NoteContainer enters a trunk or a bin.
type NoteContainer struct {
	Container inventory.Kind
	Name      string
}

// Decide gives it a number; two of a kind can't have one name, since pieces lie in it
// by its name.
func (d NoteContainer) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("its name", d.Name); err != nil {
		return out, err
	}
	if other := inventory.ContainerNamed(v, d.Name); other != nil {
		return out, inventory.Refuse(d.Name+" is "+other.Number.Short()+" already", "print its tag: steeltally tag "+other.Number.Short())
	}
	numbers, err := nextNumbers(v, d.Container, 1, &out)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, &inventory.ContainerNoted{Container: numbers[0], Name: d.Name})
	return out, nil
}
