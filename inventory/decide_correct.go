package inventory

import "slices"

// OtherSet says that grinds were done on another set than was thought: "last 2 were B".
type OtherSet struct {
	Grinds []Event // as recorded, oldest first
	Set    Number  // the set that it was
}

// Decide voids the grinds and notes them on the other set, at their own times. Where
// that set was not on, the change that nobody scanned is noted too.
func (d OtherSet) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if err := onlyGrinds(d.Grinds); err != nil {
		return out, err
	}
	set, err := FindSet(v, d.Set)
	if err != nil {
		return out, err
	}
	correction, err := voiding(v, d.Grinds, "wrong set: it was "+set.Letter)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, correction)
	first := d.Grinds[0].Body.(*Ground)
	if err := unscannedChange(v, Moment{d.Grinds[0].Happened, m.Now}, first, set, &out); err != nil {
		return out, err
	}
	for _, e := range d.Grinds {
		old := e.Body.(*Ground)
		if old.Player != set.Player {
			return out, refuse("steeltally undo --was-player names another player", "set %s is not that player's", set.Number.Short())
		}
		out.record(e.Happened, onSet(old, set))
	}
	return out, nil
}

func onlyGrinds(events []Event) error {
	if len(events) == 0 {
		return refuse("steeltally history shows what is recorded", "there is no grind to correct")
	}
	for i := range events {
		if _, ok := events[i].Body.(*Ground); !ok {
			return refuse("steeltally undo takes it back", "entry %s is no grind", events[i].Key)
		}
	}
	return nil
}

// onSet is the same work on another set's runners.
func onSet(old *Ground, set *Set) *Ground {
	work := *old
	work.Set, work.Both = set.Number, Both[Passes]{}
	for side, passes := range old.Each {
		work.Put(side, &Passes{Runner: set.Runner(side), Passes: passes.Passes})
	}
	return &work
}

// unscannedChange notes the change of steel that came before the grinds, where the
// other set was not on then.
func unscannedChange(v View, m Moment, first *Ground, set *Set, out *Outcome) error {
	pair, ok := v.Entity(RefOf(first.Pair)).(*Pair)
	if !ok || pair.SetAt(m.at()) == set.Number {
		return nil
	}
	player, err := PlayerOf(v, set.Player)
	if err != nil {
		return err
	}
	return TakeOut{Reason: "rotate"}.change(v, m, player, pair, set, out)
}

// OtherPlayer says that grinds were done for another player than was scanned.
type OtherPlayer struct {
	Grinds []Event
	Player Number
}

// Decide voids the grinds and notes them on what the other player had on then.
func (d OtherPlayer) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if err := onlyGrinds(d.Grinds); err != nil {
		return out, err
	}
	player, err := PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	correction, err := voiding(v, d.Grinds, "wrong player: it was "+player.Name)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, correction)
	for _, e := range d.Grinds {
		grind, err := again(e.Body.(*Ground), d.Player).Decide(v, Moment{e.Happened, m.Now})
		if err != nil {
			return out, err
		}
		out.Drafts = append(out.Drafts, grind.Drafts...)
	}
	return out, nil
}

// again is the command that a recorded grind would be for another player.
func again(b *Ground, player Number) Grind {
	grind := Grind{Player: player, Work: b.Work, Hollow: b.Hollow, Machine: b.Machine, By: b.By, Unknown: true}
	for side, passes := range b.Each {
		grind.Passes.Put(side, passes.Passes)
		grind.Unknown = grind.Unknown && passes.Passes == nil
	}
	return grind
}

// SwapSides says that since a time a set's left runner was on the right boot and the
// right one on the left.
type SwapSides struct {
	Set     Number
	Since   When
	History []Event // the set's standing events, oldest first
}

// Decide voids what was noted by side since then and notes it with the runners
// exchanged; the set's sides are changed from then on.
func (d SwapSides) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	set, err := FindSet(v, d.Set)
	if err != nil {
		return out, err
	}
	since := slices.DeleteFunc(slices.Clone(d.History), func(e Event) bool {
		return e.Happened.Start.Before(d.Since.Start) || swapped(e.Body, set) == nil
	})
	correction := &Correction{Words: "left and right were swapped since " + d.Since.Start.Format("2006-01-02"), About: []Number{d.Set, set.Left, set.Right}}
	putInAnew := false
	for _, e := range since {
		correction.Voids = append(correction.Voids, e.Key)
		correction.About = append(correction.About, numbersOf(&e)...)
		_, isIn := e.Body.(*PutIn)
		putInAnew = putInAnew || isIn
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	out.record(m.Happened, correction)
	d.turnAround(v, set, putInAnew, &out)
	for _, e := range since {
		out.record(e.Happened, swapped(e.Body, set))
	}
	return out, nil
}

// turnAround notes the swap itself: off and on again the other way round, unless the
// set went on only after that.
func (d SwapSides) turnAround(v View, set *Set, putInAnew bool, out *Outcome) {
	use, on := set.Uses.At(d.Since.Start)
	pair, known := v.Entity(RefOf(use.Pair)).(*Pair)
	turned := on && known && !putInAnew
	in := &PutIn{Player: set.Player, Pair: use.Pair, Set: d.Set, Order: set.Order(d.Since.Start)}
	if turned {
		off := &TakenOut{Player: set.Player, Pair: use.Pair, Set: d.Set, Reason: "rotate"}
		for _, side := range bothSides {
			holder := pair.SeatAt(side, d.Since.Start).Holder
			off.Put(side, &Removal{Runner: set.Runner(side), Holder: holder})
			in.Put(side, &Fit{Runner: set.Runner(side.Other()), Holder: holder})
		}
		out.record(d.Since, off)
	}
	out.record(d.Since, &SetMade{Set: d.Set, Player: set.Player, Letter: set.Letter, Left: set.Right, Right: set.Left})
	if turned {
		out.record(d.Since, in)
	}
}

// swapped is the same body with the set's two runners exchanged, or nil where the
// body says nothing by side.
func swapped(body Body, set *Set) Body {
	other := map[Number]Number{set.Left: set.Right, set.Right: set.Left}
	switch b := body.(type) {
	case *Ground:
		s := *b
		s.Both = Both[Passes]{}
		for side, passes := range b.Each {
			s.Put(side, &Passes{other[passes.Runner], passes.Passes})
		}
		return &s
	case *Measured:
		s := *b
		s.Heights = slices.Clone(b.Heights)
		for i := range s.Heights {
			s.Heights[i].Runner = other[s.Heights[i].Runner]
		}
		return &s
	case *PutIn:
		s := *b
		s.Both = Both[Fit]{}
		for side, fit := range b.Each {
			s.Put(side, &Fit{other[fit.Runner], fit.Holder})
		}
		return &s
	case *TakenOut:
		s := *b
		s.Both = Both[Removal]{}
		for side, removal := range b.Each {
			s.Put(side, &Removal{other[removal.Runner], removal.Holder, removal.Retired})
		}
		return &s
	}
	return nil
}
