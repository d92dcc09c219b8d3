package station

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

// typed is what a window showed when a line was begun, and when it was typed, by the
// window's clock. What a person did not see yet, he can't have meant.
type typed struct {
	At     time.Time        `json:"at"`
	Sent   time.Time        `json:"sent"`
	Turn   int              `json:"turn"` // how many lines had been acted on
	Book   inventory.Writer `json:"book,omitempty"`
	Screen string           `json:"screen"`
	Card   inventory.Number `json:"card,omitzero"`
	Rows   []string         `json:"rows,omitempty"`
	More   bool             `json:"more,omitempty"` // other lines are kept behind this one
}

const (
	soon    = 5 * time.Second // until then a line counts as typed now
	longest = 24 * time.Hour  // for which a clock is trusted to tell when a line was typed
)

// age is how long a line was kept.
func (in asked) age() time.Duration {
	if in.Typed == nil {
		return 0
	}
	return in.Typed.Sent.Sub(in.Typed.At)
}

// when is the time at which a line was typed; zero is now.
func (in asked) when(now time.Time) time.Time {
	if in.age() < soon {
		return time.Time{}
	}
	return now.Add(-in.age())
}

// unattended tells whether nobody looks at what comes of a line: it was kept for a while,
// or the next one follows at once.
func (in asked) unattended() bool {
	return in.Typed != nil && (in.Typed.More || in.age() >= soon)
}

// saw tells whether what came of so many lines was shown when this one was begun.
func (in asked) saw(turn int) bool { return in.Typed == nil || in.Typed.Turn >= turn }

// rows are what the rows of the list that was shown stand for.
func (in asked) rows() []string {
	if in.Typed == nil {
		return in.Talk.Rows
	}
	return in.Typed.Rows
}

// row is what a row of the list stands for that was shown.
func (in asked) row(no string) (string, error) {
	rows := in.rows()
	row, err := strconv.Atoi(no)
	if err != nil || row < 1 || row > len(rows) {
		return "", inventory.Refuse(fmt.Sprintf("no row %s was shown", no), "look at the list, then choose")
	}
	return rows[row-1], nil
}

// unmeant says why a line can't be what was meant when it was typed; empty where it can.
func (t *talk) unmeant(in asked) string {
	switch {
	case in.Typed == nil:
		return ""
	case in.age() < -soon:
		return "the clock was set back since it was typed: done now, it counts as of now"
	case in.age() > longest:
		return "it was typed more than a day ago by this machine's clock"
	case in.saw(in.Talk.Turn) && (in.Typed.Screen != t.Screen || in.Typed.Card != t.About.Number):
		return "another card or screen is shown than when it was typed"
	case t.buildsOnDoubt(in):
		return "what was typed before it waits: " + sayLine(t.Doubt.Line)
	}
	return ""
}

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
