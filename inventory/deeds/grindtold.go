package deeds

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// tellState warns of what was ground, or holds it, and nobody may skate on, and says when
// any of it is in other hands by the record. What its player keeps at home comes and goes
// with him. Each piece is read once: a person waits.
func tellState(v inventory.View, body *inventory.Ground, at time.Time, out *Outcome) {
	pieces := []inventory.Number{body.Pair, body.Set}
	for _, passes := range body.Each {
		pieces = append(pieces, passes.Runner)
	}
	if pair, err := inventory.FindPair(v, body.Pair); err == nil {
		pieces = append(pieces, pair.HolderAt(inventory.Left, at), pair.HolderAt(inventory.Right, at))
	}
	var away inventory.Number
	var with inventory.Custody
	for _, n := range pieces {
		if n == 0 {
			continue
		}
		marks := inventory.MarksOf(v, n)
		if (n.Kind() == inventory.KindRunner || n.Kind() == inventory.KindHolder) && !standing.Skateable(v, at, n) {
			out.tell("DO NOT SKATE: "+n.Short(), "take it off; steeltally emergency says what helps")
		}
		if custody := marks.CustodyAt(at); away == 0 && !custody.Ours() && custody.Custody != inventory.CustodyPlayer {
			away, with = n, custody
		}
	}
	if away != 0 {
		out.tell(away.Short()+" is "+with.String()+" by the record", "if it is back: steeltally custody back "+away.Short())
	}
}

// tellWhatIsMeant says what the work was taken to be on where that can be another.
func (d Grind) tellWhatIsMeant(v inventory.View, m Moment, body *inventory.Ground, out *Outcome) {
	pair, err := inventory.FindPair(v, body.Pair)
	if err != nil {
		return
	}
	for _, side := range inventory.Sides() {
		if body.Of(side) == nil && !d.More {
			out.tell(fmt.Sprintf("no %s runner is on: only the other one was logged", side), "steeltally in puts one on")
		}
	}
	on := pair.SetAt(m.at())
	set, err := inventory.FindSet(v, on)
	if err != nil || m.Happened.Exact() {
		return
	}
	if m.Happened.Unknown() || pair.SetAt(m.Happened.End) != on {
		out.tell(fmt.Sprintf("it may have been on another set: taken for set %s, %s", set.Letter, set.Number.Short()), "say the time, or give the set's number")
	}
}

// tellUneven offers to even out a grind; nick work may differ.
func tellUneven(body *inventory.Ground, out *Outcome) {
	if body.Work != inventory.WorkGrind || body.Left == nil || body.Right == nil {
		return
	}
	left, right := *body.Left.Passes, *body.Right.Passes
	switch {
	case left > right:
		out.tell(fmt.Sprintf("left %d, right %d", left, right), fmt.Sprintf("%d more right?", left-right))
	case right > left:
		out.tell(fmt.Sprintf("left %d, right %d", left, right), fmt.Sprintf("%d more left?", right-left))
	}
}
