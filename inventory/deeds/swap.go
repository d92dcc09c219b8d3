package deeds

import (
	"slices"

	"steeltally/inventory"
)

// SwapSides says that since a time a set's left runner was on the right boot and the
// right one on the left.
type SwapSides struct {
	Set     inventory.Number
	Since   inventory.When
	History []inventory.Event // the set's standing events, oldest first
}

// Decide voids what was noted by side since then and notes it with the runners
// exchanged; the set's sides are changed from then on.
func (d SwapSides) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	set, err := inventory.FindSet(v, d.Set)
	if err != nil {
		return out, err
	}
	since, err := d.since(v, set, m)
	if err != nil {
		return out, err
	}
	correction := &inventory.Correction{Words: "left and right were swapped since " + d.day(v), About: []inventory.Number{d.Set, set.Left, set.Right}}
	for i := range since {
		correction.Moves = correction.Moves || movesSteel(since[i].Body)
		correction.Voids = append(correction.Voids, since[i].Key)
		correction.About = append(correction.About, inventory.NumbersOf(&since[i])...)
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	out.record(m.Happened, correction)
	if err := d.turnAround(v, set, &out); err != nil {
		return out, err
	}
	for _, e := range since {
		out.record(e.Happened, swapped(e.Body, set))
	}
	return out, nil
}

func (d SwapSides) day(v inventory.View) string {
	if d.Since.Unknown() {
		return "the start"
	}
	return d.Since.SayDay(inventory.ClubOf(v).Location())
}

// since lists the events since then that say something by side.
func (d SwapSides) since(v inventory.View, set *inventory.Set, m Moment) ([]inventory.Event, error) {
	if d.Since.After(m.Now) {
		return nil, inventory.RefuseValue("check the date and the year", "%s is in the future", d.day(v))
	}
	var since []inventory.Event
	for _, e := range d.History {
		if e.Happened.Start.Before(d.Since.Start) {
			continue
		}
		if _, isRivet := e.Body.(*inventory.Riveted); isRivet {
			return nil, inventory.Refuse("undo that entry, say that they were swapped, then rivet again",
				"a holder was riveted with set %s in it since %s (entry %s)", set.Letter, d.day(v), e.Key)
		}
		if e.Key != set.Event && swapped(e.Body, set) != nil {
			since = append(since, e)
		}
	}
	return since, nil
}

// turnAround notes the swap itself: off and on again the other way round where the set
// was on by then, and which of its runners is left and which right.
func (d SwapSides) turnAround(v inventory.View, set *inventory.Set, out *Outcome) error {
	made := d.turned(set)
	before := &inventory.Set{Uses: set.Uses.Before(d.Since)}
	left, right := before.PairAt(inventory.Left, d.Since.Start), before.PairAt(inventory.Right, d.Since.Start)
	pair, on := v.Entity(inventory.RefOf(left)).(*inventory.Pair)
	if left != right {
		return inventory.Refuse("undo what is wrong and enter it again", "only one runner of set %s was on by %s", set.Letter, d.day(v))
	}
	if !on {
		out.record(latest(d.Since, set.Since), made)
		return nil
	}
	off := &inventory.TakenOut{Player: set.Player, Pair: left, Set: d.Set, Reason: "rotate"}
	in := &inventory.PutIn{Player: set.Player, Pair: left, Set: d.Set, Order: before.Order(d.Since.Start)}
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
func (d SwapSides) turned(set *inventory.Set) *inventory.SetMade {
	made := &inventory.SetMade{Set: d.Set, Player: set.Player, Letter: set.Letter}
	for _, e := range d.History {
		if b, ok := e.Body.(*inventory.SetMade); ok && b.Set == d.Set && (e.Key == set.Event || e.Happened.Start.Before(d.Since.Start)) {
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
