package station

import (
	"slices"

	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

// doubt is what lines can't build on that were typed before a person could see that a
// line before them waits.
type doubt struct {
	Turn   int             `json:"turn"`             // after which it was seen
	Line   string          `json:"line"`             // that waits
	Card   bool            `json:"card,omitempty"`   // what is on the card may be another's, until something is scanned
	Change bool            `json:"change,omitempty"` // the next set might be meant to go on
	Top    []inventory.Key `json:"top,omitempty"`    // what was recorded last before it: taking back ends there
}

// buildsOnDoubt tells whether a line hangs on one that waits, unseen by who typed it.
func (t *talk) buildsOnDoubt(in asked) bool {
	if t.Doubt == nil || in.saw(t.Doubt.Turn) {
		return false
	}
	switch jig.BearingOf(in.Line) {
	case jig.OnLast:
		return slices.Equal(t.lastMine(), t.Doubt.Top)
	case jig.OnCard:
		return t.Doubt.Card && t.Screen != atTrip && t.Screen != atBin
	case jig.Anew:
		n, err := inventory.ScannedNumber(in.Line)
		return t.Doubt.Change && t.Screen != atTrip && t.Screen != atBin && err == nil && (n.Kind() == inventory.KindSet || n.Kind() == inventory.KindRunner)
	}
	return false
}

// doubtAfter is what can't be built on after a line that waits.
func (t *talk) doubtAfter(in asked) *doubt {
	d := doubt{Turn: t.Turn, Line: in.Line, Card: t.Screen != atTrip && t.Screen != atBin, Top: t.lastMine()}
	if jig.BearingOf(in.Line) != jig.Anew {
		d.Change = jig.WantsSet(in.Line) || t.Doubt != nil && t.Doubt.Change
		d.Card = d.Card || t.Doubt != nil && t.Doubt.Card
	}
	return &d
}

// lastMine is the last action that was recorded from here.
func (t *talk) lastMine() []inventory.Key {
	if n := len(t.Mine); n > 0 {
		return t.Mine[n-1]
	}
	return nil
}
