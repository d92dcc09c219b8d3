package station

import (
	"errors"
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
	var said told
	draw := nothing
	err := s.book.use(in.Key, func(d *desk.Desk) error {
		var err error
		said, err = s.act(d, &out, in)
		if err != nil {
			said = wrong(said, err)
		}
		draw = s.show(d, &out)
		return ifUnknown(err)
	})
	draw()
	if err != nil && said.Tone == "" {
		said = s.afterFault(in, &out, err)
	}
	out.Tone, out.Told = said.Tone, s.render("told", said)
	if out.Recorded {
		s.bell.ring()
	}
	writeJSON(w, out)
}

// afterFault tells what came of a line that ended in an error: where the program was at
// fault, what it had recorded before is told.
func (s *Station) afterFault(in asked, out *answer, err error) told {
	var said told
	if fault := new(desk.FaultError); !errors.As(err, &fault) {
		return wrong(said, err)
	}
	out.Talk = in.Talk
	s.book.use(in.Key, func(d *desk.Desk) error {
		before, known, err := d.Known()
		if known && err == nil {
			out.Recorded, said = true, tellDone(before)
			out.Talk.Keep(before)
		}
		return err
	})
	if !out.Recorded {
		return wrong(said, err)
	}
	said.Tone = toneLook
	said.Notes = append(said.Notes, inventory.Notice{Text: err.Error(), Hint: desk.HintOf(err)})
	return said
}

// ifUnknown keeps an error that leaves open what is on disk.
func ifUnknown(err error) error {
	if desk.FailureOf(err) == desk.Failed {
		return err
	}
	return nil
}

// act hands a line to the screen that is shown; a scan on a screen that only shows leads
// back to the jig.
func (s *Station) act(d *desk.Desk, out *answer, in asked) (told, error) {
	in.Line = inventory.AsScanned(in.Line)
	if !in.Talk.atJig() {
		in.Talk.Asked = nil // what is asked at the jig is not answered from where it does not stand
		if in.Line == "ed" && in.Talk.Crisis != nil {
			out.Talk.Screen = atJig
			return s.atJig(d, out, in)
		}
		if err := keyOfJig(in); err != nil {
			return told{}, err
		}
	}
	switch in.Talk.Screen {
	case atBin:
		return binLine(&out.Talk, in.Line), nil
	case atTrip:
		if before, known, err := d.Known(); known || err != nil {
			out.Recorded = known
			out.Talk.Keep(before)
			return tellDone(before), err
		}
		return tripLine(d, out, in.Line)
	case atTags:
		if said, taken, err := s.tagsLine(d, out, in.Line); taken || err != nil {
			return said, err
		}
	}
	if in.Line == "h" {
		if in.Talk.About.Number == 0 {
			return told{}, &inventory.Refusal{Reason: "whose history?", Hint: "scan a player or a piece first"}
		}
		out.Talk.Screen, out.Talk.Piece = atPiece, in.Talk.About.Number.String()
		return told{Tone: toneShown}, nil
	}
	if in.Line == "" && !in.Talk.atJig() {
		out.Talk.Screen = atJig
		return told{Tone: toneShown}, nil
	}
	out.Talk.Screen = atJig
	return s.atJig(d, out, in)
}

// keyOfJig refuses a key of the jig on another screen, which does not show what the key
// would act on; u stands below every screen, and q puts a trip or a bin away.
func keyOfJig(in asked) error {
	own := in.Line == "u" || in.Line == "q" && (in.Talk.Screen == atBin || in.Talk.Screen == atTrip)
	if own || in.Line != "h" && !jig.IsKey(in.Line) {
		return nil
	}
	return &inventory.Refusal{Reason: in.Line + " is a key of the jig: nothing was done", Hint: "F1 leads there"}
}

// atJig is a line at the jig. One that was recorded before, and whose answer was lost on
// its way, is told of again and not done twice.
func (s *Station) atJig(d *desk.Desk, out *answer, in asked) (told, error) {
	before, known, err := d.Known()
	if err != nil {
		return told{}, err
	}
	if known {
		out.Recorded = true
		again(d, &out.Talk, in.Line, before)
		return tellDone(before), nil
	}
	talk := jig.Jig{Desk: d, State: in.Talk.State, MayAsk: true}
	reply, err := talk.Line(in.Line)
	out.Talk.State = talk.State
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

// again brings a window whose answer was lost to where it would be.
func again(d *desk.Desk, t *talk, line string, before desk.Done) {
	t.Asked, t.Readings, t.Changing = nil, nil, false
	t.Removed = append(before.Retired(), before.Broken()...)
	t.Keep(before)
	if card, err := d.Card(line); line != "" && err == nil {
		t.About = jig.About{Number: card.Number, Player: card.Player, Target: card.Target}
	}
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
	if hint := desk.HintOf(err); hint != "" {
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
