// Package jig is the talk at the bench: a line that was scanned or typed, and what came
// of it. The terminal and the screen share it, so that a key means the same on both.
package jig

import (
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// State is what the bench remembers from one line to the next; the zero value begins. It
// is plain data, so that a screen can keep it while the program is started anew.
type State struct {
	About    About                 `json:"about,omitzero"`    // what was scanned last
	Grinding bool                  `json:"grinding,omitzero"` // each scan logs the usual grind
	Changing bool                  `json:"changing,omitzero"` // the next set that is scanned goes on
	Stock    string                `json:"stock,omitzero"`    // what was entered last from a blank tag
	Readings []geometry.Millimetre `json:"readings,omitzero"` // of the caliper, not recorded yet
	Crisis   *desk.Clock           `json:"crisis,omitzero"`   // the clock that runs
	Mine     [][]inventory.Key     `json:"mine,omitempty"`    // the actions recorded from here that can be taken back, the latest last
	Asked    *Question             `json:"asked,omitzero"`    // what waits for an answer
}

// About is what the next key acts on.
type About struct {
	Number inventory.Number `json:"number,omitzero"` // as scanned
	Player inventory.Number `json:"player,omitzero"`
	Target desk.Target      `json:"target,omitzero"`
}

// Reply is what came of a line. More than one part is filled where a line did more than
// one thing: a scan in grinding mode shows a card and records a grind.
type Reply struct {
	Card    *desk.Card
	Done    []desk.Done
	Rescue  *desk.Rescue
	Said    []string
	Notices []inventory.Notice
	Removed []inventory.Number // steel that is done with: each gets a tag
	Over    bool               // the session has ended

	Answered bool // the line was taken as the answer to what was asked
	Dropped  int  // readings of the caliper that made no whole measurement
}

// Jig is one person's talk with an open book.
type Jig struct {
	Desk   *desk.Desk
	State  State
	MayAsk bool // a person is there to answer; else nothing is ever asked
	Origin Origin

	reply Reply
	sure  bool // what is asked about was answered with yes
}

// Origin is where a line comes from that is acted on later than it was typed. What is
// asked about it goes on to its answer: a line that waits in two lists, and is answered in
// both, is done once.
type Origin struct {
	Typed       time.Time `json:"typed,omitzero"`        // when; zero: now
	Kept        int       `json:"kept,omitempty"`        // its number in the list of the lines that wait
	Key         string    `json:"key,omitempty"`         // its own; empty: that of the line that answers
	Fingerprint string    `json:"fingerprint,omitempty"` // that the key was given with
}

// Line acts on one line from the scanner, the caliper or the keyboard. What was recorded
// before an error is in the reply.
func (j *Jig) Line(text string) (Reply, error) {
	j.reply, j.sure = Reply{}, false
	err := j.as(j.Origin, func() error { return j.line(inventory.AsScanned(text)) })
	return j.reply, err
}

// as acts on something as of when it was typed.
func (j *Jig) as(origin Origin, act func() error) error {
	now, from := j.Desk, j.Origin
	defer func() { j.Desk, j.Origin = now, from }()
	j.Desk, j.Origin = now.Happened(origin.Typed), origin
	if origin.Key != "" {
		j.Desk = j.Desk.With(origin.Key, origin.Fingerprint)
	}
	if origin.Typed.IsZero() {
		j.Origin.Typed = from.Typed
	}
	return act()
}

func (j *Jig) line(text string) error {
	if asked := j.State.Asked; asked != nil {
		j.State.Asked = nil
		err := j.as(asked.Origin, func() (err error) {
			j.reply.Answered, err = j.answer(*asked, text)
			return err
		})
		if j.reply.Answered || err != nil {
			return err
		}
	}
	if action, ok := actionOf(text); ok {
		return j.action(action)
	}
	if height, ok := caliperReading(text); ok {
		return j.reading(height)
	}
	if act := keyOf(text); act != nil {
		return act(j)
	}
	return j.scanned(text)
}

// scanned shows what was scanned; while grinding it logs the usual grind at once, of who was
// named only where a person says so.
func (j *Jig) scanned(text string) error {
	if err := j.readingsBefore(); err != nil {
		return err
	}
	if j.MayAsk && text != "" {
		ambiguous, err := j.Desk.Pick(text)
		if err != nil {
			return err
		}
		if ambiguous != nil {
			j.ask(WhichPlayer(ambiguous))
			return nil
		}
	}
	if blank, err := j.Desk.BlankTag(text); blank != 0 || err != nil {
		return j.blank(blank, err)
	}
	card, err := j.Desk.Card(text)
	if err != nil {
		j.State.About = About{} // the next key is not about whoever came before
		return hintAtCapsLock(text, err)
	}
	j.reply.Card = &card
	j.State.About = About{card.Number, card.Player, card.Target}
	if j.State.Changing && card.Target.Set != 0 {
		return j.change(changing{})
	}
	switch {
	case !j.State.Grinding:
		return nil
	case inventory.ByName(text):
		return j.askNamed(card)
	}
	return j.grind(deeds.Grind{}, text)
}

// askNamed asks whether who was named is ground for: a name is too easily somebody else's.
func (j *Jig) askNamed(card desk.Card) error {
	if !j.MayAsk {
		return &inventory.Refusal{Reason: card.Title + " was named, not scanned: nothing is ground", Hint: "scan him, or type his number " + card.Number.Short()}
	}
	j.ask(Question{Sort: askNamed, Text: "log the usual grind of " + card.Title + "? (y/n)", Line: card.Number.String()})
	return nil
}

// meant is the number that an action is about.
func (j *Jig) meant() (string, error) {
	target := j.State.About.Target
	for _, n := range []inventory.Number{target.Set, target.Pair, target.Player} {
		if n != 0 {
			return n.String(), nil
		}
	}
	return "", nothingMeant("scan a player, a pair or a set first")
}

func nothingMeant(hint string) error {
	return &inventory.Refusal{Reason: "nothing to act on", Hint: hint}
}

func (j *Jig) say(text string) { j.reply.Said = append(j.reply.Said, text) }

// done keeps what an action came to.
func (j *Jig) done(done desk.Done, err error) error {
	if err == nil {
		j.reply.Done = append(j.reply.Done, done)
		j.State.Keep(done)
		j.askClock(done)
	}
	return err
}

// Bearing is what the meaning of a line hangs on.
type Bearing int

// The bearings.
const (
	OnCard    Bearing = iota // on what came before: a key about the card, or a word that may be an answer
	OnMode                   // on nothing: it says what a scan does from now on
	OnNothing                // neither: who is left, which keys there are
	OnLast                   // on what was recorded last: it is taken back
	Anew                     // a number: what comes after it hangs on it
)

// BearingOf tells what a line hangs on.
func BearingOf(text string) Bearing {
	action, _ := actionOf(text)
	switch {
	case text == "u" || action == inventory.ActUndo:
		return OnLast
	case text == "g" || action == inventory.ActGrind || action == inventory.ActLook:
		return OnMode
	case text == "q" || text == "?" || action == inventory.ActDone:
		return OnNothing
	case action == 0 && (isScan(text) || text != "" && strings.Trim(text, "0123456789") == ""):
		return Anew
	}
	return OnCard
}

// WantsSet tells whether a line can make the next set that is scanned go on.
func WantsSet(text string) bool {
	action, _ := actionOf(text)
	c, isChange := readChange(text)
	return action == inventory.ActChange || isChange && c.letter == ""
}
