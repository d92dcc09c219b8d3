package deeds

import "steeltally/inventory"

// FindManyOld enters a whole list of old runners as one action.
type FindManyOld struct{ Pieces []FindOld }

// mostOld bounds one list; a club's bin of many seasons has fewer.
const mostOld = 10_000

// Decide is all of them or none; each gets a number of its own.
func (d FindManyOld) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Pieces) == 0 || len(d.Pieces) > mostOld {
		return out, inventory.RefuseValue("enter more in several goes", "%d pieces: 1 to %d can be entered at once", len(d.Pieces), mostOld)
	}
	numbers, err := nextNumbers(v, inventory.KindRunner, len(d.Pieces), &out)
	if err != nil {
		return out, err
	}
	for i, piece := range d.Pieces {
		found, err := piece.Decide(v, m)
		if err != nil {
			return Outcome{}, err
		}
		body := found.Drafts[0].Body.(*inventory.FoundOld)
		body.Piece = numbers[i]
		out.record(found.Drafts[0].Happened, body)
	}
	return out, nil
}
