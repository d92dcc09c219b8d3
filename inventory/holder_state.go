package inventory

import "time"

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
