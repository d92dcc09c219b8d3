package station

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/geometry"
	"steeltally/inventory"
)

// waiting is a line that could not be done as it was meant when it was typed, with what
// it was about. It waits until a person has it done or drops it.
type waiting struct {
	No          int       `json:"no"`
	Key         string    `json:"key"` // its own: done twice, it is recorded once
	Line        string    `json:"line"`
	Typed       time.Time `json:"typed,omitzero"` // zero: when it is done
	Why         string    `json:"why"`
	For         string    `json:"for,omitempty"`   // what it was about, in words
	After       string    `json:"after,omitempty"` // a line before it that waits: what it is about is not known
	Screen      string    `json:"screen"`
	Fingerprint string    `json:"fingerprint,omitempty"` // that it was given with; empty: that of the line on its screen
	Trip        string    `json:"trip,omitempty"`
	Trunk       string    `json:"trunk,omitempty"`

	Recorded bool                  `json:"recorded,omitempty"` // only what is asked about it waits
	About    jig.About             `json:"about,omitzero"`
	Grinding bool                  `json:"grinding,omitempty"`
	Changing bool                  `json:"changing,omitempty"`
	Readings []geometry.Millimetre `json:"readings,omitempty"`
	Asked    *jig.Question         `json:"asked,omitempty"`
}

// lineOf is a line as it would wait, about what is shown.
func (t *talk) lineOf(in asked, at time.Time) waiting {
	w := waiting{Key: in.Key, Line: in.Line, Typed: at, Screen: t.Screen, Fingerprint: in.fingerprint(), Trip: t.Trip, Trunk: t.Trunk}
	w.About, w.Grinding, w.Changing, w.Readings = t.About, t.Grinding, t.Changing, t.Readings
	if t.Screen == atJig {
		w.Asked = t.Asked
	}
	return w
}

// named says in words what a line is about.
func (w waiting) named(d *desk.Desk) waiting {
	switch {
	case w.Screen == atTrip:
		w.For = w.Trip
	case w.Screen == atJig && jig.BearingOf(w.Line) == jig.OnCard && w.About.Number != 0:
		card, _ := d.Card(w.About.Number.String())
		w.For = cmp.Or(card.Title, w.About.Number.Short())
	}
	return w
}

// restore shows again what a line was about.
func (w waiting) restore(t *talk) {
	if w.Screen == atTrip {
		t.Trip, t.Trunk = w.Trip, w.Trunk
		return
	}
	t.About, t.Grinding, t.Changing, t.Readings = w.About, w.Grinding, w.Changing, w.Readings
	if w.Asked != nil {
		question := *w.Asked
		question.Kept = w.No
		t.Asked = &question
	}
}

// wait puts a line into the list.
func (t *talk) wait(d *desk.Desk, in asked, w waiting, why string) waiting {
	w = w.named(d)
	w.Why = why
	if t.buildsOnDoubt(in) {
		w.After = sayLine(t.Doubt.Line)
	}
	t.Doubt = t.doubtAfter(in)
	return t.list(w)
}

func (t *talk) list(w waiting) waiting {
	t.Waits++
	w.No = t.Waits
	t.Waiting = append(slices.Clip(t.Waiting), w)
	return w
}

func (t *talk) waitingAt(no int) int {
	return slices.IndexFunc(t.Waiting, func(w waiting) bool { return w.No == no })
}

// setAside lets what is asked wait with the line that asked it: nobody saw the question.
func (t *talk) setAside() {
	question, asker := t.Asked, t.Asker
	t.Asked, t.Asker = nil, nil
	if question == nil || question.Kept != 0 || asker == nil {
		return
	}
	asker.Why = question.Text
	t.Doubt = t.doubtAfter(asked{Line: asker.Line})
	t.Doubt.Turn = t.AskedTurn
	t.list(*asker)
}

// drop takes a line off the list, with what is asked about it.
func (t *talk) drop(no int) {
	t.Waiting = slices.DeleteFunc(slices.Clone(t.Waiting), func(w waiting) bool { return w.No == no })
	if t.Asked != nil && t.Asked.Kept == no {
		t.Asked = nil
	}
}

// say tells of a line: "typed 14:03 for 17 Lindqvarn: c G".
func (w waiting) say(zone *time.Location, now time.Time) string {
	text := "typed"
	if !w.Typed.IsZero() {
		typed, layout := w.Typed.In(zone), "15:04"
		if typed.Format(time.DateOnly) != now.In(zone).Format(time.DateOnly) {
			layout = "2 Jan 2006 15:04"
		}
		text += " " + typed.Format(layout)
	}
	switch {
	case w.After != "":
		text += " after " + w.After
	case w.For != "":
		text += " for " + w.For
	}
	if at := slices.IndexFunc(screens(), func(tab tab) bool { return tab.Screen == w.Screen }); w.Screen != atJig && at >= 0 {
		text += " at " + screens()[at].Word
	}
	return text + ": " + sayLine(w.Line)
}

// sayLine is a line in words; the empty one is the key Enter.
func sayLine(line string) string { return cmp.Or(line, "Enter") }

// waitingLine is a line of the list as it is shown.
type waitingLine struct {
	waiting
	Words string
}

// readWaiting reads the list of the lines that wait.
func (s *Station) readWaiting(d *desk.Desk, t *talk) drawing {
	lines := make([]waitingLine, len(t.Waiting))
	for i, w := range t.Waiting {
		lines[i] = waitingLine{w, w.say(d.Zone(), s.options.Desk.Now())}
	}
	return s.of("waiting", lines)
}

// tellWaits says that a line waits.
func (s *Station) tellWaits(d *desk.Desk, said told, w waiting) told {
	said.Tone = toneLook
	what := "not done as meant, it waits: "
	if w.Recorded {
		what = "recorded, with a question that waits: "
	}
	said.Lines = append(said.Lines, what+w.say(d.Zone(), s.options.Desk.Now()))
	said.Notes = append(said.Notes, inventory.Notice{Text: w.Why, Hint: fmt.Sprintf("w%d does it, d%d drops it", w.No, w.No)})
	return said
}
