package deeds

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"steeltally/inventory"
)

// SwapSides says that since a time the left runners of some sets were on the right boot
// and the right ones on the left.
type SwapSides struct {
	Sets  []SetHistory
	Since inventory.When
	Named bool // the one set was named; else those of several that were on or worked on since then are meant
}

// SetHistory is a set with its standing events, oldest first.
type SetHistory struct {
	Set    inventory.Number
	Events []inventory.Event
}

// turning is a set whose sides are exchanged, with what was noted by side since then.
type turning struct {
	SetHistory
	*inventory.Set
	since  []inventory.Event
	drafts Outcome // the swap itself
}

// Decide voids what was noted by side since then and notes it with the runners exchanged;
// the sets' sides are changed from then on. Of several sets it tells which are, and which
// it has to leave.
func (d SwapSides) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if d.Since.After(m.Now) {
		return out, inventory.RefuseValue(fmt.Sprintf("%s is in the future", d.day(v)), "check the date and the year")
	}
	sets, err := d.turnings(v, &out)
	if err != nil {
		return out, err
	}
	correction := &inventory.Correction{Words: "left and right were swapped since " + d.day(v)}
	var letters []string
	var since []inventory.Event
	for _, t := range sets {
		since, letters = append(since, t.since...), append(letters, t.Letter+" "+t.Number.Short())
		correction.About = append(correction.About, t.Number, t.Left, t.Right)
	}
	slices.SortStableFunc(since, func(a, b inventory.Event) int { return inventory.CompareOrder(&a, &b) })
	for i := range since {
		correction.Moves = correction.Moves || movesSteel(since[i].Body)
		correction.Voids = append(correction.Voids, since[i].Key)
		correction.About = append(correction.About, inventory.NumbersOf(&since[i])...)
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	if !d.Named {
		out.tell("sides exchanged of set "+strings.Join(letters, ", set "), "if it was one of them only: steeltally undo, then name its number")
	}
	out.record(m.Happened, correction)
	for _, t := range sets {
		out.Drafts = append(out.Drafts, t.drafts.Drafts...)
	}
	for _, e := range since {
		out.record(e.Happened, swappedOf(e.Body, sets))
	}
	return out, nil
}

// turnings are the sets that are meant. Where several can be, one that can't be exchanged
// is left, and told of.
func (d SwapSides) turnings(v inventory.View, out *Outcome) ([]turning, error) {
	var sets []turning
	var first error
	for _, history := range d.Sets {
		t := turning{SetHistory: history}
		meant, err := d.turning(v, &t)
		refusal := new(inventory.Refusal)
		switch {
		case err == nil && meant:
			sets = append(sets, t)
		case d.Named || t.Set == nil || err != nil && !errors.As(err, &refusal):
			return nil, err
		case err != nil:
			first = cmp.Or(first, err)
			out.tell("set "+t.Letter+" "+t.Number.Short()+" is left as it was: "+refusal.Reason, refusal.Hint)
		}
	}
	if len(sets) == 0 && first == nil {
		first = inventory.Refuse(fmt.Sprintf("no set was on or worked on since %s", d.day(v)), "name the set by its number: steeltally undo SET --swapped-since …")
	}
	if len(sets) == 0 {
		return nil, first
	}
	return sets, nil
}

// turning finds what is noted by side of one set since then, and tells whether the set is
// meant.
func (d SwapSides) turning(v inventory.View, t *turning) (meant bool, err error) {
	if t.Set, err = inventory.FindSet(v, t.SetHistory.Set); err != nil {
		return false, err
	}
	rivetedOn := error(nil)
	for _, e := range t.Events {
		if e.Happened.Start.Before(d.Since.Start) {
			continue
		}
		if _, isRivet := e.Body.(*inventory.Riveted); isRivet {
			rivetedOn = cmp.Or(rivetedOn, inventory.Refuse(fmt.Sprintf("a holder was riveted with set %s in it since %s (entry %s)", t.Letter, d.day(v), e.Key),
				"undo that entry, say that they were swapped, then rivet again"))
		}
		if e.Key != t.Event && swapped(e.Body, t.Set) != nil {
			t.since = append(t.since, e)
		}
	}
	before := &inventory.Set{Uses: t.Uses.Before(d.Since)}
	wasOn := before.PairAt(inventory.Left, d.Since.Start) != 0 || before.PairAt(inventory.Right, d.Since.Start) != 0
	if rivetedOn != nil || !d.Named && !wasOn && len(t.since) == 0 {
		return false, rivetedOn
	}
	return true, d.turnAround(v, t, before)
}

func (d SwapSides) day(v inventory.View) string {
	if d.Since.Unknown() {
		return "the start"
	}
	return d.Since.SayDay(inventory.ClubOf(v).Location())
}

// turnAround notes the swap itself: off and on again the other way round where the set
// was on by then, and which of its runners is left and which right.
func (d SwapSides) turnAround(v inventory.View, t *turning, before *inventory.Set) error {
	set, out, made := t.Set, &t.drafts, d.turned(t)
	left, right := before.PairAt(inventory.Left, d.Since.Start), before.PairAt(inventory.Right, d.Since.Start)
	pair, on := v.Entity(inventory.RefOf(left)).(*inventory.Pair)
	if left != right {
		return inventory.Refuse(fmt.Sprintf("only one runner of set %s was on by %s", set.Letter, d.day(v)), "undo what is wrong and enter it again")
	}
	if !on {
		out.record(latest(d.Since, set.Since), made)
		return nil
	}
	off := &inventory.TakenOut{Player: set.Player, Pair: left, Set: set.Number, Reason: inventory.ReasonRotate}
	in := &inventory.PutIn{Player: set.Player, Pair: left, Set: set.Number, Order: before.Order(d.Since.Start)}
	for _, side := range inventory.Sides() {
		seat, _ := pair.Boot(side).Runners.Before(d.Since).At(d.Since.Start)
		off.Put(side, &inventory.Removal{Runner: seat.Runner, Holder: seat.Holder})
		in.Put(side, &inventory.Fit{Runner: mateOf(set, seat.Runner), Holder: seat.Holder})
	}
	out.record(d.Since, off)
	out.record(d.Since, made)
	out.record(d.Since, in)
	return nil
}

// turned is the set as it was until then, with its sides exchanged.
func (d SwapSides) turned(t *turning) *inventory.SetMade {
	made := &inventory.SetMade{Set: t.Number, Player: t.Player, Letter: t.Letter}
	for _, e := range t.Events {
		if b, ok := e.Body.(*inventory.SetMade); ok && b.Set == t.Number && (e.Key == t.Event || e.Happened.Start.Before(d.Since.Start)) {
			made.Left, made.Right = b.Right, b.Left
		}
	}
	return made
}

func latest(a, b inventory.When) inventory.When {
	if a.Compare(b) < 0 {
		return b
	}
	return a
}

// swappedOf is the same body with the runners of that of some sets exchanged that it is of.
func swappedOf(body inventory.Body, sets []turning) inventory.Body {
	for _, t := range sets {
		if slices.Contains(body.Touches(), inventory.RefOf(t.Number)) {
			body = swapped(body, t.Set)
		}
	}
	return body
}

// swapped is the same body with the set's two runners exchanged, or nil where the
// body says nothing by side.
func swapped(body inventory.Body, set *inventory.Set) inventory.Body {
	switch b := body.(type) {
	case *inventory.SetMade:
		if b.Set != set.Number {
			return nil
		}
		s := *b
		s.Left, s.Right = b.Right, b.Left
		return &s
	case *inventory.Ground:
		s := *b
		s.Both = inventory.Both[inventory.Passes]{}
		for side, passes := range b.Each {
			s.Put(side, &inventory.Passes{Runner: mateOf(set, passes.Runner), Passes: passes.Passes})
		}
		return &s
	case *inventory.Measured:
		s := *b
		s.Heights = slices.Clone(b.Heights)
		for i := range s.Heights {
			s.Heights[i].Runner = mateOf(set, s.Heights[i].Runner)
		}
		return &s
	case *inventory.PutIn:
		s := *b
		s.Both = inventory.Both[inventory.Fit]{}
		for side, fit := range b.Each {
			s.Put(side, &inventory.Fit{Runner: mateOf(set, fit.Runner), Holder: fit.Holder})
		}
		return &s
	case *inventory.TakenOut:
		s := *b
		s.Both = inventory.Both[inventory.Removal]{}
		for side, removal := range b.Each {
			s.Put(side, &inventory.Removal{Runner: mateOf(set, removal.Runner), Holder: removal.Holder, Retired: removal.Retired})
		}
		return &s
	}
	return nil
}

// mateOf is the other runner of a set; a runner that is none of its stays.
func mateOf(s *inventory.Set, n inventory.Number) inventory.Number {
	switch n {
	case s.Left:
		return s.Right
	case s.Right:
		return s.Left
	}
	return n
}
