package station

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"net/http"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

// line acts on a scanned or typed line and says what came of it.
func (s *Station) line(w http.ResponseWriter, r *http.Request) {
	var in asked
	if !readJSON(w, r, &in) {
		return
	}
	out := answer{Talk: in.Talk}
	out.Talk.Turn++
	var said told
	draw := nothing
	err := s.given(in, func(d *desk.Desk) error {
		err := out.Talk.meets(d)
		if err == nil {
			said, err = s.carry(d, &out, in)
		}
		if err != nil {
			said = wrong(said, err)
		}
		said.warn(d)
		draw = s.show(d, &out)
		return ifUnknown(err)
	})
	draw()
	if fault := new(desk.FaultError); errors.As(err, &fault) && said.Tone == "" {
		said = s.afterFault(in, &out, err)
	}
	if said.Tone == "" {
		unopened(w, err)
		return
	}
	out.Tone, out.Told = said.Tone, s.render("told", said)
	if out.Recorded {
		s.bell.ring()
	}
	writeJSON(w, out)
}

// warn says DO NOT SKATE in what shows the number of something that nobody may skate on.
func (t *told) warn(d *desk.Desk) {
	for i := range t.Lines {
		t.Lines[i] = d.Warned(t.Lines[i])
	}
	for i := range t.Notes {
		t.Notes[i].Text = d.Warned(t.Notes[i].Text)
	}
}

// afterFault tells what came of a line in which the program was at fault: what it had
// recorded before, or that the line waits.
func (s *Station) afterFault(in asked, out *answer, fault error) (said told) {
	out.Talk = in.Talk
	out.Talk.Turn++
	s.given(in, func(d *desk.Desk) error {
		before, known, err := d.Known()
		if err != nil {
			return err
		}
		if known {
			out.Recorded, said = true, tellDone(before)
			out.Talk.Keep(before)
			said.Tone = toneLook
		} else {
			line := out.Talk.lineOf(in, in.when(s.options.Desk.Now()))
			line.Why = "the program was at fault"
			out.Talk.Doubt = out.Talk.doubtAfter(in)
			said = s.tellWaits(d, said, out.Talk.list(line))
			said.Tone = toneWrong
		}
		said.Notes = append(said.Notes, inventory.Notice{Text: fault.Error(), Hint: hintOf(fault)})
		said.warn(d)
		out.Waiting = s.drawn(s.readWaiting(d, &out.Talk))
		return nil
	})
	return said
}

// unopened says why the book can't be got at. The window keeps its lines and sends them
// again.
func unopened(w http.ResponseWriter, err error) {
	text := err.Error()
	if hint := hintOf(err); hint != "" {
		text += "; " + hint
	}
	http.Error(w, text+". What you scan is kept, and recorded when the book is there again.", http.StatusServiceUnavailable)
}

// ifUnknown keeps an error that leaves open what is on disk.
func ifUnknown(err error) error {
	if desk.FailureOf(err) == desk.Failed {
		return err
	}
	return nil
}

// act hands a line to the screen that is shown. A scan on a screen that only shows leads
// back to the jig; a key of one screen does nothing on another.
func (s *Station) act(d *desk.Desk, out *answer, in asked, origin jig.Origin) (told, error) {
	t := &out.Talk
	if !t.atJig() {
		if in.Line == "ed" && t.Crisis != nil { // stands beside the clock, above every screen
			return s.fromElsewhere(d, out, in.Line, origin)
		}
		if err := t.keyOfJig(in.Line); err != nil {
			return told{}, err
		}
	}
	switch t.Screen {
	case atBin:
		return binLine(t, in.Line)
	case atTrip:
		return tripLine(d, out, in)
	case atTags:
		if said, taken, err := s.tagsLine(d, out, in); taken || err != nil {
			return said, err
		}
	}
	switch {
	case t.atJig() && in.Line == "h" && t.About.Number == 0:
		return told{}, &inventory.Refusal{Reason: "whose history?", Hint: "scan a player or a piece first"}
	case t.atJig() && in.Line == "h":
		t.Screen, t.Piece = atPiece, t.About.Number.String()
		return told{Tone: toneShown}, nil
	case t.atJig():
		return s.atJig(d, out, in.Line, origin)
	case in.Line == "":
		t.Screen = atJig
		return told{Tone: toneShown}, nil
	case jig.BearingOf(in.Line) == jig.OnLast:
		return s.fromElsewhere(d, out, in.Line, origin)
	}
	t.setAside() // what is asked at the jig is not answered from where it does not stand
	t.Screen = atJig
	return s.atJig(d, out, in.Line, origin)
}

// keyOfJig refuses a key of the jig on another screen, which does not show what the key
// would act on; u stands below every screen, and q puts a trip or a bin away.
func (t *talk) keyOfJig(line string) error {
	own := jig.BearingOf(line) == jig.OnLast || line == "q" && (t.Screen == atBin || t.Screen == atTrip)
	if own || line != "h" && !jig.IsKey(line) {
		return nil
	}
	return &inventory.Refusal{Reason: line + " is a key of the jig: nothing was done", Hint: "F1 leads there"}
}

// fromElsewhere acts on a key that stands around every screen. What the jig asks stays
// asked; where the key itself asks, the jig is shown.
func (s *Station) fromElsewhere(d *desk.Desk, out *answer, line string, origin jig.Origin) (told, error) {
	t := &out.Talk
	before := t.Asked
	t.Asked = nil
	said, err := s.atJig(d, out, line, origin)
	asks := t.Asked
	t.Asked = before
	if asks != nil {
		t.setAside()
		t.Asked, t.Screen = asks, atJig
	}
	return said, err
}

// atJig is a line at the jig.
func (s *Station) atJig(d *desk.Desk, out *answer, line string, origin jig.Origin) (told, error) {
	talk := jig.Jig{Desk: d, State: out.Talk.State, MayAsk: true, Origin: origin}
	reply, err := talk.Line(line)
	out.Talk.State = talk.State
	out.answered, out.dropped = reply.Answered, reply.Dropped
	out.Recorded = len(reply.Done) > 0 || reply.Rescue != nil
	if reply.Rescue != nil {
		out.Talk.Alarmed = talk.State.About
	}
	if reply.Card != nil || len(reply.Removed) > 0 {
		out.Talk.Removed = reply.Removed
	}
	said := tell(reply, talk.State.Asked)
	if err == nil && reply.Over {
		said, err = notLogged(d)
	}
	if err != nil {
		return said, err
	}
	return s.tagsOf(d, reply.Removed, said), nil
}

// againAsking does the same, and asks what is still asked about the clock that dated it;
// where the line waits in the list under a number, the answer takes it off.
func againAsking(d *desk.Desk, out *answer, line string, before desk.Done, kept int) (told, error) {
	said := again(d, out, line, before)
	question, err := jig.ClockQuestion(d, before)
	if err != nil || question == nil {
		return said, err
	}
	question.Kept = kept
	out.Talk.Asked = question
	said.Tone, said.Lines = toneAsked, append(said.Lines, question.Text)
	return said, nil
}

// again tells of a line that was recorded before, and whose answer was lost on its way;
// it is not done twice. The window comes to where it would be.
func again(d *desk.Desk, out *answer, line string, before desk.Done) told {
	t := &out.Talk
	out.Recorded = true
	t.Keep(before)
	if t.Asked != nil {
		t.drop(t.Asked.Kept)
	}
	if t.Screen == atTrip || t.Screen == atBin {
		return tellDone(before)
	}
	t.Screen = atJig
	t.Asked, t.Asker, t.Readings, t.Changing = nil, nil, nil, false
	t.Removed = append(before.Retired(), before.Broken()...)
	if card, err := d.Card(line); line != "" && err == nil {
		t.About = jig.About{Number: card.Number, Player: card.Player, Target: card.Target}
	}
	return tellDone(before)
}

// tell puts a reply into words.
func tell(reply jig.Reply, question *jig.Question) told {
	said := told{Tone: toneShown, Lines: reply.Said, Notes: reply.Notices}
	for _, done := range reply.Done {
		more := tellDone(done)
		said.Lines, said.Notes = append(said.Lines, more.Lines...), append(said.Notes, more.Notes...)
		said.Tone = toneDone
	}
	if reply.Rescue != nil {
		said.Tone = toneDone
		said.Lines = append(said.Lines, reply.Rescue.Whose()+", "+string(reply.Rescue.Side)+" side: DO NOT SKATE, the clock runs")
	}
	if question != nil {
		said.Tone, said.Lines = toneAsked, append(said.Lines, question.Text)
	}
	return said
}

func tellDone(done desk.Done) told {
	said := told{Tone: toneDone, Notes: done.Notices}
	for _, line := range done.Back {
		said.Lines = append(said.Lines, "taken back: "+line)
	}
	if len(done.Back) == 0 {
		said.Lines = append(said.Lines, done.Lines...)
	}
	return said
}

// wrong adds an error to what was said before it.
func wrong(said told, err error) told {
	said.Tone = toneWrong
	if desk.FailureOf(err) == desk.Unprinted {
		said.Tone = toneLook // it is recorded; the tags are still to come
	}
	said.Lines = append(said.Lines, err.Error())
	if hint := hintOf(err); hint != "" {
		said.Notes = append([]inventory.Notice{{Text: hint}}, said.Notes...)
	}
	return said
}

// notLogged ends a session; nothing is ever assumed.
func notLogged(d *desk.Desk) (told, error) {
	missing, err := d.NotLogged()
	if err != nil {
		return told{}, err
	}
	said := told{Tone: toneShown, Lines: []string{desk.SayNotLogged(missing)}}
	if len(missing) > 0 {
		said.Tone = toneLook
	}
	return said, nil
}

// given works on the book with a line's own key and with what it was given with, so that
// the key is not taken for another line's.
func (s *Station) given(in asked, work func(*desk.Desk) error) error {
	return s.book.use(in.Key, func(d *desk.Desk) error { return work(d.Asking(in.fingerprint())) })
}

// fingerprint is the one of a line and the screen that it was typed on.
func (in asked) fingerprint() string {
	screen := in.Talk.Screen
	if in.Typed != nil {
		screen = in.Typed.Screen
	}
	return fingerprintOf(in.Line, screen)
}

func fingerprintOf(line, screen string) string {
	if (talk{Screen: screen}).atJig() {
		screen = atJig
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%q%q", screen, inventory.AsScanned(line)))
	return fmt.Sprintf("%x", sum[:8])
}

// usedKey lets a line wait, under a key of its own, whose key stands for another one.
func (s *Station) usedKey(d *desk.Desk, t *talk, in asked, refused error) told {
	line := t.lineOf(in, in.when(s.options.Desk.Now()))
	line.Key = aside(line.Key, line.Fingerprint)
	return s.tellWaits(d, told{}, t.wait(d, in, line, refused.Error()))
}

// aside is a key of its own beside a line's; a line without one has none.
func aside(key, what string) string {
	if key == "" {
		return ""
	}
	return key + "/" + what
}
