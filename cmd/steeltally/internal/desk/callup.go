package desk

import (
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/roadtrip"
	"steeltally/inventory/standing"
)

// NeedLine is one sort of thing that a called-up player needs, and where it comes from.
type NeedLine struct {
	What      string             `json:"what"`
	Size      int                `json:"size_mm,omitempty"`
	Want      int                `json:"want"`
	Stock     []inventory.Number `json:"stock"`
	Others    []LoanLine         `json:"others"`
	Buy       int                `json:"buy"`
	Uncertain string             `json:"uncertain,omitempty"`
}

// LoanLine is a piece that another player could spare; he is asked first.
type LoanLine struct {
	PieceLine
	What  string `json:"what"`
	Owner string `json:"owner"`
}

// CallUp adds a player who joins at short notice, and tells what he needs.
func (d *Desk) CallUp(deed deeds.CallUp) (inventory.Number, []NeedLine, Done, error) {
	done, err := d.do(deed)
	if err != nil {
		return 0, nil, done, err
	}
	n := made(done, func(b *inventory.CalledUp) inventory.Number { return b.Player })
	needs, err := d.needs(n)
	return n, needs, done, err
}

func (d *Desk) needs(n inventory.Number) ([]NeedLine, error) {
	lines := []NeedLine{}
	err := d.askNow(func(v *standing.Now) error {
		player, err := inventory.PlayerOf(v, n)
		if err != nil {
			return err
		}
		for _, need := range roadtrip.Needs(v, player) {
			line := NeedLine{What: need.What, Size: need.Size, Want: need.Want, Stock: []inventory.Number{}, Others: []LoanLine{}, Buy: need.Buy, Uncertain: need.Uncertain}
			line.Stock = append(line.Stock, need.Stock...)
			for _, loan := range need.Others {
				line.Others = append(line.Others, LoanLine{pieceLine(v, loan.Number, v.At), loan.What, loan.Owner})
			}
			lines = append(lines, line)
		}
		return nil
	})
	return lines, err
}
