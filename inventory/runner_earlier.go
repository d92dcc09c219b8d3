package inventory

import "time"

// A runner's own record begins when it comes into stock. Of some the record knows only
// what a tag or a marker pen says of the time before; that counts while there is no
// stock-in that knows better.

// OldInscription is what a marker pen wrote on a runner, and whose it was.
type OldInscription struct {
	Text    string `json:"text"`
	Player  Number `json:"player,omitempty"`
	Sweater int    `json:"sweater,omitempty"`
}

// TagFacts is what a tag says of a piece.
type TagFacts struct {
	Event Key  `json:"event"`
	Out   When `json:"out"`
	KnownFromTag
}

// Tagged is a piece that may be known from its tag.
type Tagged struct {
	Tag      *TagFacts `json:"tag,omitempty"`       // of the highest generation seen
	OtherTag *Key      `json:"other_tag,omitempty"` // of the same generation, with other facts
}

// takeTag keeps the tag of the highest generation; of two that agree, the first.
func (t *Tagged) takeTag(e *Event, b *KnownFromTag) {
	switch {
	case t.Tag == nil || b.Generation > t.Tag.Generation:
		t.Tag, t.OtherTag = &TagFacts{e.Key, e.Happened, *b}, nil
	case b.Generation == t.Tag.Generation && !t.Tag.Agrees(e.Happened, b):
		t.OtherTag = &e.Key
	}
}

// flags tells of tags that contradict each other.
func (t *Tagged) flags(about Number, m *Marks) []Flag {
	if t.OtherTag == nil {
		return nil
	}
	return m.conflict(about, t.Tag.Event, *t.OtherTag, "two of its tags, of one generation, do not say the same")
}

// Recorded tells whether the runner's own record reaches back to when it came into the
// club. What happened to the others before is known from a tag or not at all, so they
// are left out of wear.
func (r *Runner) Recorded() bool { return r.Stock.Entered() && r.Found == nil }

// KnownTag is the tag that counts, since no stock-in knows better; else nil.
func (r *Runner) KnownTag() *TagFacts {
	if r.Stock.Entered() {
		return nil
	}
	return r.Tag
}

// earlier is the use of a runner before its own record, where a tag or a marker pen
// tells of it and it was over at an instant.
func (r *Runner) earlier(at time.Time) (Stint, bool) {
	stint := Stint{Retired: true}
	switch tag := r.KnownTag(); {
	case tag != nil:
		stint.In, stint.Out, stint.Player, stint.Side, stint.Reason = tag.In, tag.Out, tag.Player, tag.Side, tag.Reason.Reason()
	case r.Found != nil:
		stint.Out, stint.Player, stint.Side = r.Since, r.Found.Player, r.Side
	default:
		return stint, false
	}
	return stint, !stint.Out.After(at)
}

// found keeps what was read off an old piece, in the place of a stock-in.
func (r *Runner) found(e *Event, b *FoundOld) {
	if r.Stock.Entered() {
		r.Twice = &e.Key
		return
	}
	r.Stock = Stock{Since: e.Happened, Event: e.Key, Side: b.Side}
	r.Found = &OldInscription{b.Inscription, b.Player, b.Sweater}
	if b.Place != nil {
		r.Places.add(e, *b.Place)
	}
}

// earlierWear is what a tag says of the wear before the record, or what the record
// begins with. Nobody counted what an old piece went through.
func (r *Runner) earlierWear(at time.Time) Wear {
	tag := r.KnownTag()
	if tag == nil {
		wear := Wear{HeightNew: r.heightNew(at)}
		if r.Found != nil {
			wear.UnknownWorks = 1
		}
		return wear
	}
	if _, over := r.earlier(at); !over {
		return Wear{}
	}
	wear := Wear{Grinds: tag.Grinds, Passes: tag.Passes, HeightNew: tag.New, HeightLast: tag.Final}
	if tag.Final != nil {
		wear.LastReference = Loose
	}
	if tag.Unknown {
		wear.UnknownWorks = 1
	}
	return wear
}

// tagFlags tells of tags that contradict each other, and of one that says more than
// the runner's own record.
func (r *Runner) tagFlags() []Flag {
	flags := r.Tagged.flags(r.Number, &r.Marks)
	if r.Tag != nil && r.Stock.Entered() && r.Tag.Generation > len(stintsOf(r.Moves)) {
		flags = append(flags, r.conflict(r.Number, r.Stock.Event, r.Tag.Event, "its tag says that it was used more often than is recorded here")...)
	}
	return flags
}

// Entered tells whether the runner is in the record: by a stock-in, or by its tag.
func (r *Runner) Entered() bool { return r.Stock.Entered() || r.Tag != nil }

// Agrees tells whether another tag says the same.
func (t *TagFacts) Agrees(out When, b *KnownFromTag) bool {
	return t.Out.Compare(out) == 0 && t.Player == b.Player && t.Sweater == b.Sweater && t.Side == b.Side && t.In.Compare(b.In) == 0 &&
		same(t.New, b.New) && same(t.Final, b.Final) && t.Grinds == b.Grinds && t.Passes == b.Passes &&
		t.Unknown == b.Unknown && same(t.Hollow, b.Hollow) && t.Reason == b.Reason
}

func same[T comparable](a, b *T) bool { return a == b || a != nil && b != nil && *a == *b }
