package inventory

import "time"

// Holder is the folded state of one holder.
type Holder struct {
	Number Number `json:"number"`
	Stock
	Marks
	Boots   Timeline[OnBoot] `json:"boots,omitempty"`
	Runners Timeline[Number] `json:"runners,omitempty"` // zero: none in it
}

// OnBoot is where a holder hangs; a zero Pair is nowhere.
type OnBoot struct {
	Pair Number `json:"pair,omitempty"`
	Side Side   `json:"side,omitempty"`
}

// Apply folds one event.
func (h *Holder) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *StockedIn:
		h.stockIn(e, b)
		if b.Place != nil {
			h.Places.add(e, *b.Place)
		}
	case *Riveted:
		h.Boots.add(e, OnBoot{onBoot(b), b.Side})
	case *PutIn:
		for _, fit := range b.Each {
			if fit.Holder == h.Number {
				h.Runners.add(e, fit.Runner)
			}
		}
	case *TakenOut:
		for _, fit := range b.Each {
			if fit.Holder == h.Number {
				h.Runners.add(e, 0)
			}
		}
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
	runner, _ := h.Runners.At(at)
	return runner
}

// Flags lists what the record is unsure of about this holder.
func (h *Holder) Flags() []Flag {
	flags := append(h.foreignFlags(h.Number), h.Stock.flags(h.Number, &h.Marks)...)
	for i := 1; i < len(h.Boots); i++ {
		before, after := h.Boots[i-1], h.Boots[i]
		if before.Value.Pair != 0 && after.Value.Pair != 0 {
			flags = append(flags, h.conflict(h.Number, before.Event, after.Event, "it was riveted on twice")...)
		}
	}
	return flags
}
