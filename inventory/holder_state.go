package inventory

import "time"

// StateAt is where the holder is in its life at an instant.
func (h *Holder) StateAt(at time.Time) State {
	boots := h.Boots.Until(at)
	switch {
	case len(boots) > 0 && boots[len(boots)-1].Value.Pair != 0:
		return On
	case len(boots) > 0 || h.known() != nil:
		return Removed
	}
	return InStock
}

// known is the tag that counts, since no stock-in knows better; else nil.
func (h *Holder) known() *TagFacts {
	if h.Stock.Entered() {
		return nil
	}
	return h.Tag
}

// SideOf is the holder's side; empty where nothing tells it.
func (h *Holder) SideOf() Side {
	if tag := h.known(); tag != nil {
		return tag.Side
	}
	return h.Side
}

// Entered tells whether the holder is in the record: by a stock-in, or by its tag.
func (h *Holder) Entered() bool { return h.Stock.Entered() || h.Tag != nil }
