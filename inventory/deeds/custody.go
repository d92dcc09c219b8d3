package deeds

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// HandOver gives pieces into other hands.
type HandOver struct {
	Pieces    []inventory.Number
	Custody   inventory.Custodian
	With      string
	Reference string
	Due       inventory.When
	Note      string
}

// Decide records who has them. What hangs on a pair goes along, as does what a set is
// made of.
func (d HandOver) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := oneOf("custody", d.Custody, inventory.Custodies()); err != nil {
		return out, inventory.RefuseValue(err.Error(), "")
	}
	if d.Custody == inventory.CustodyClub {
		return out, inventory.RefuseValue("the club has its pieces anyway", "steeltally custody back says that it is here again")
	}
	if !d.Due.Unknown() && !d.Due.After(m.at()) {
		return out, inventory.RefuseValue("it can be due back only on a day that is still to come", "such as --due 2025-12-10")
	}
	pieces, err := withAll(v, d.Pieces, m.at())
	if err != nil {
		return out, err
	}
	if d.With != "" {
		if err := checkName("the name", d.With); err != nil {
			return out, err
		}
	}
	out.record(m.Happened, &inventory.CustodyChanged{
		Pieces: pieces, Custody: d.Custody, With: d.With, Reference: d.Reference, Due: d.Due, Note: d.Note,
	})
	return out, nil
}

// withAll are pieces with what hangs on them or makes them up, each once.
func withAll(v inventory.View, pieces []inventory.Number, at time.Time) ([]inventory.Number, error) {
	if len(pieces) == 0 {
		return nil, inventory.RefuseValue("no piece was named", "scan the pieces")
	}
	var all []inventory.Number
	for _, n := range pieces {
		state := v.Entity(inventory.RefOf(n))
		if !inventory.IsEntered(state) {
			state = nil
		}
		switch state := state.(type) {
		case *inventory.Runner:
			all = append(all, n)
		case *inventory.Holder:
			all = append(all, n)
			if runner := state.RunnerAt(at); runner != 0 {
				all = append(all, runner)
			}
		case *inventory.Pair:
			all = append(append(all, n), inventory.PiecesOn(state, at)...)
		case *inventory.Set:
			all = append(all, n, state.Left, state.Right)
		default:
			return nil, inventory.Refuse(n.Short()+" is not a piece in this book", "scan a runner, a holder, a pair or a set")
		}
	}
	slices.Sort(all)
	return slices.Compact(all), nil
}

// TakeBack is pieces that are with the club again.
type TakeBack struct {
	Pieces    []inventory.Number
	NotGround bool // nobody ground them meanwhile
}

// Decide records that they are back. Steel that others skated on got passes that
// nobody counted, which is said unless it was not ground.
func (d TakeBack) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	pieces, err := withAll(v, d.Pieces, m.at())
	if err != nil {
		return out, err
	}
	away := slices.DeleteFunc(slices.Clone(pieces), func(n inventory.Number) bool { return inventory.MarksOf(v, n).CustodyAt(m.at()).Ours() })
	if len(away) == 0 {
		return out, inventory.Refuse(d.Pieces[0].Short()+" is with the club already", "steeltally history "+d.Pieces[0].Short()+" shows where it was")
	}
	out.record(m.Happened, &inventory.CustodyChanged{Pieces: away, Custody: inventory.CustodyClub})
	if !d.NotGround {
		recordUncounted(v, m, away, &out)
	}
	out.tell(fmt.Sprintf("pieces back: %d", len(away)), "look at bolts and rivets, measure; both stay open work until then")
	return out, nil
}

// recordUncounted notes passes that nobody counted on steel that was skated elsewhere.
func recordUncounted(v inventory.View, m Moment, back []inventory.Number, out *Outcome) {
	bodies := map[inventory.Number]*inventory.Ground{}
	var order []inventory.Number
	for _, n := range back {
		runner, ok := v.Entity(inventory.RefOf(n)).(*inventory.Runner)
		custody := inventory.MarksOf(v, n).CustodyAt(m.at())
		if !ok || !standing.Skateable(v, m.at(), n) || custody.Custody == inventory.CustodyMaker || custody.Custody == inventory.CustodyRepairer {
			continue
		}
		set, ok := v.Entity(inventory.RefOf(runner.SetAt(m.at()))).(*inventory.Set)
		if !ok {
			continue
		}
		body := bodies[set.Number]
		if body == nil {
			body = &inventory.Ground{Player: set.Player, Set: set.Number, Work: inventory.WorkGrind, By: cmp.Or(custody.With, custody.Custody.Say())}
			bodies[set.Number], order = body, append(order, set.Number)
		}
		body.Put(runner.SideAt(m.at()), &inventory.Passes{Runner: n})
	}
	for _, set := range order {
		out.record(m.Happened, bodies[set])
	}
	if len(order) > 0 {
		out.tell("ground elsewhere, passes unknown", "if it was not: steeltally undo, then custody back --not-ground")
	}
}

// NoteAnswer is what a maker or repairer said about pieces that he has.
type NoteAnswer struct {
	Pieces    []inventory.Number
	Reference string // instead of the pieces
	Decision  inventory.Decision
	Due       inventory.When
	Note      string
}

// Decide records the answer for all pieces of the letter.
func (d NoteAnswer) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := oneOf("decision", d.Decision, inventory.Decisions()); err != nil {
		return out, inventory.RefuseValue(err.Error(), "")
	}
	pieces := d.Pieces
	if d.Reference != "" {
		pieces = append(slices.Clone(pieces), sentWith(v, d.Reference, m.at())...)
	}
	if len(pieces) == 0 {
		return out, inventory.Refuse(fmt.Sprintf("nothing is away under reference %s", inventory.OrDash(inventory.Clip(d.Reference))), "steeltally custody list shows what is away")
	}
	for _, n := range pieces {
		if inventory.MarksOf(v, n).CustodyAt(m.at()).Ours() {
			return out, inventory.Refuse(n.Short()+" is with the club", "send it first: steeltally custody to maker "+n.Short())
		}
	}
	out.record(m.Happened, &inventory.MakerAnswered{Pieces: inventory.Distinct(slices.Clone(pieces)), Decision: d.Decision, Due: d.Due, Note: d.Note})
	return out, nil
}

// sentWith lists the pieces that are away under a reference.
func sentWith(v inventory.View, reference string, at time.Time) []inventory.Number {
	var sent []inventory.Number
	for _, n := range inventory.OnceAway(v) {
		if custody := inventory.MarksOf(v, n).CustodyAt(at); !custody.Ours() && inventory.SameName(custody.Reference, reference) {
			sent = append(sent, n)
		}
	}
	return sent
}
