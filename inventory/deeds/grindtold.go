package deeds

import (
	"fmt"
	"time"

	"steeltally/inventory"
)

// tellUnsafe warns of what was ground, or holds it, and nobody may skate on.
func tellUnsafe(v inventory.View, body *inventory.Ground, at time.Time, out *Outcome) {
	for _, n := range groundPieces(v, body, at) {
		if n != 0 && inventory.MarksOf(v, n).DoNotSkate(at) {
			out.tell("take it off; steeltally emergency says what helps", "DO NOT SKATE: "+n.Short())
		}
	}
}

// groundPieces are the runners that were ground, and what holds them.
func groundPieces(v inventory.View, body *inventory.Ground, at time.Time) []inventory.Number {
	var pieces []inventory.Number
	for _, passes := range body.Each {
		pieces = append(pieces, passes.Runner)
	}
	if pair, err := inventory.FindPair(v, body.Pair); err == nil {
		pieces = append(pieces, pair.HolderAt(inventory.Left, at), pair.HolderAt(inventory.Right, at))
	}
	return pieces
}

// tellAway says when what was ground is in other hands by the record. What its player
// keeps at home comes and goes with him.
func tellAway(v inventory.View, body *inventory.Ground, at time.Time, out *Outcome) {
	for _, n := range append([]inventory.Number{body.Pair, body.Set}, groundPieces(v, body, at)...) {
		if n == 0 {
			continue
		}
		if custody := inventory.MarksOf(v, n).CustodyAt(at); !custody.Ours() && custody.Custody != inventory.CustodyPlayer {
			out.tell("if it is back: steeltally custody back "+n.Short(), n.Short()+" is "+custody.String()+" by the record")
			return
		}
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
			out.tell("steeltally in puts one on", fmt.Sprintf("no %s runner is on: only the other one was logged", side))
		}
	}
	on := pair.SetAt(m.at())
	set, err := inventory.FindSet(v, on)
	if err != nil || m.Happened.Exact() {
		return
	}
	if m.Happened.Unknown() || pair.SetAt(m.Happened.End) != on {
		out.tell("say the time, or give the set's number", fmt.Sprintf("it may have been on another set: taken for set %s, %s", set.Letter, set.Number.Short()))
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
		out.tell(fmt.Sprintf("%d more right?", left-right), fmt.Sprintf("left %d, right %d", left, right))
	case right > left:
		out.tell(fmt.Sprintf("%d more left?", right-left), fmt.Sprintf("left %d, right %d", left, right))
	}
}
