package inventory

import "time"

// Holder is the folded state of one holder.
type Holder struct {
	Number Number `json:"number"`
	Stock
	Marks
	Tagged
	Boots   Timeline[OnBoot] `json:"boots,omitempty"`
	Runners Timeline[Seat]   `json:"runners,omitempty"`
}

// OnBoot is where a holder hangs; a zero Pair is nowhere.
type OnBoot struct {
	Pair   Number `json:"pair,omitempty"`
	Side   Side   `json:"side,omitempty"`
	Runner Number `json:"runner,omitempty"` // what was in it then
}

// Apply folds one event.
func (h *Holder) Apply(e *Event) {
	h.notice(e)
	switch b := e.Body.(type) {
	case *StockedIn:
		h.stockIn(e, b)
		if b.Place != nil {
			h.Places.add(e, *b.Place)
		}
	case *Riveted:
		h.Boots.add(e, OnBoot{onBoot(b), b.Side, b.Runner})
	case *PutIn:
		for _, fit := range b.Each {
			if fit.Holder == h.Number {
				h.Runners.addWhere(e, Seat{Runner: fit.Runner, Set: b.Set}, seatFollows)
			}
		}
	case *TakenOut:
		for _, fit := range b.Each {
			if fit.Holder == h.Number {
				h.Runners.addWhere(e, Seat{Taken: fit.Runner}, seatFollows)
			}
		}
	case *KnownFromTag:
		h.takeTag(e, b)
	default:
		h.Marks.apply(h.Number, e)
	}
}

// BootAt is where the holder hangs at an instant.
func (h *Holder) BootAt(at time.Time) OnBoot {
	boot, _ := h.Boots.At(at)
	return boot
}

// RunnerAt is the runner in the holder at an instant, or zero.
func (h *Holder) RunnerAt(at time.Time) Number {
	seat, _ := h.Runners.At(at)
	return seat.Runner
}

// Flags lists what the record is unsure of about this holder.
func (h *Holder) Flags() []Flag {
	flags := append(h.foreignFlags(h.Number), h.Stock.flags(h.Number, &h.Marks)...)
	flags = append(flags, h.Tagged.flags(h.Number, &h.Marks)...)
	return append(flags, h.flagClashes(h.Number, h.clashes())...)
}

// clashes lists what was noted of the holder and cannot all be right.
func (h *Holder) clashes() []clash {
	clashes := h.Boots.clashes(func(before, after OnBoot) string {
		switch {
		case before.Pair != 0 && after.Pair != 0:
			return "it was riveted on twice"
		case before.Pair == 0 && after.Pair == 0:
			return "it was taken off a boot, but nothing says that it was on one"
		}
		return ""
	})
	clashes = append(clashes, h.Runners.clashes(func(before, after Seat) string { return seatClash("holder's", before, after) })...)
	return append(clashes, h.lost()...)
}

// lost lists rivetings that say another thing of the steel in the holder than was known.
func (h *Holder) lost() []clash {
	var clashes []clash
	for _, boot := range h.Boots {
		var in Dated[Seat]
		if at := h.Runners.at(boot.When.Start); at >= 0 {
			in = h.Runners[at]
		}
		justThen := in.Event != Key{} && in.When.Start.Equal(boot.When.Start)
		if !justThen && in.Value.Runner != boot.Value.Runner {
			clashes = append(clashes, clash{in.Event, boot.Event, "it was riveted with other steel in it than is known"})
		}
	}
	return clashes
}

// StateAt is where the holder is in its life at an instant.
func (h *Holder) StateAt(at time.Time) State {
	boots := h.Boots.Until(at)
	switch {
	case len(boots) > 0 && boots[len(boots)-1].Value.Pair != 0:
		return On
	case h.ScrappedAt(at) || len(boots) > 0 || h.KnownTag() != nil:
		return Removed
	}
	return InStock
}

// KnownTag is the tag that counts, since no stock-in knows better; else nil.
func (h *Holder) KnownTag() *TagFacts {
	if h.Stock.Entered() {
		return nil
	}
	return h.Tag
}

// Generation numbers the tags of a holder that is riveted on again; see Runner.Generation.
func (h *Holder) Generation(at time.Time) int {
	generation := 0
	if tag := h.KnownTag(); tag != nil {
		generation = tag.Generation
	}
	for _, boot := range h.Boots.Until(at) {
		if boot.Value.Pair != 0 {
			generation++
		}
	}
	return generation
}

// SideOf is the holder's side; empty where nothing tells it.
func (h *Holder) SideOf() Side {
	if tag := h.KnownTag(); tag != nil {
		return tag.Side
	}
	return h.Side
}

// Entered tells whether the holder is in the record: by a stock-in, or by its tag.
func (h *Holder) Entered() bool { return h.Stock.Entered() || h.Tag != nil }
