package station

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

// carry acts on a line as it was meant when it was typed. It answers no question that
// was not shown then, and counts as of then. What can't be done so, or was not looked at
// by anybody, waits in a list.
func (s *Station) carry(d *desk.Desk, out *answer, in asked) (told, error) {
	t := &out.Talk
	if in.Line = inventory.AsScanned(in.Line); t.atJig() {
		t.Screen = atJig
	}
	before, known, err := d.Known()
	switch {
	case desk.FailureOf(err) == desk.Refused:
		return s.usedKey(d, t, in, err), nil
	case err != nil:
		return told{}, err
	case known:
		line := t.lineOf(in, in.when(s.options.Desk.Now()))
		said, err := againAsking(d, out, in.Line, before, 0)
		if err == nil && t.Asked != nil {
			said = s.asks(d, t, in, line, said)
		}
		return said, err
	}
	if other, err := in.ofOther(d); err != nil {
		return told{}, err
	} else if other {
		return s.tellWaits(d, told{}, t.wait(d, in, t.lineOf(in, in.when(s.options.Desk.Now())), ofOther)), nil
	}
	if t.Doubt != nil && in.saw(t.Doubt.Turn) {
		t.Doubt = nil
	}
	if said, isList, err := s.listLine(d, out, in); isList {
		return said, err
	}
	if t.Screen == atJig && !in.saw(t.AskedTurn) {
		t.setAside()
	}
	line := t.lineOf(in, in.when(s.options.Desk.Now()))
	if why := t.unmeant(in); why != "" {
		return s.tellWaits(d, told{}, t.wait(d, in, line, why)), nil
	}
	return s.carryOut(d, out, in, line)
}

// carryOut does what a line was meant to do. What comes of it that nobody looks at waits.
func (s *Station) carryOut(d *desk.Desk, out *answer, in asked, line waiting) (told, error) {
	t := &out.Talk
	asks := t.Asked
	said, err := s.act(d.Happened(line.Typed), out, in, jig.Origin{Typed: line.Typed})
	if err == nil && jig.BearingOf(in.Line) == jig.Anew && t.Screen == atJig && t.Doubt != nil {
		t.Doubt.Card, t.Doubt.Change = false, false
	}
	if out.dropped > 0 && in.unattended() {
		rest := line.named(d)
		rest.Key, rest.Line, rest.Fingerprint = aside(in.Key, "rest"), "", ""
		rest.Why = desk.SayCount(out.dropped, "reading") + ", not a whole measurement"
		said = s.tellWaits(d, said, t.list(rest))
	}
	if err != nil {
		return s.failed(d, t, in, line, said, err)
	}
	if t.Asked != nil && t.Asked != asks {
		return s.asks(d, t, in, line, said), nil
	}
	if asks != nil && asks.Kept != 0 && out.answered {
		t.drop(asks.Kept)
	}
	if t.Asked == nil {
		t.Asker = nil
	}
	if !line.Typed.IsZero() && said.Tone == toneDone {
		said.Notes = append(said.Notes, inventory.Notice{Text: "as of when it was typed, " + line.Typed.In(d.Zone()).Format("15:04")})
	}
	return said, nil
}

// failed lets a line wait that failed while nobody looked, or whose outcome is not known.
func (s *Station) failed(d *desk.Desk, t *talk, in asked, line waiting, said told, err error) (told, error) {
	sort := desk.FailureOf(err)
	if sort == desk.Unprinted || sort != desk.Failed && !in.unattended() {
		return said, err
	}
	why := err.Error()
	if hint := hintOf(err); hint != "" {
		why += "; " + hint
	}
	said = s.tellWaits(d, said, t.wait(d, in, line, why))
	if sort == desk.Failed {
		return said, err
	}
	return said, nil
}

// asks lets a question stand where somebody sees it; else its line waits with it.
func (s *Station) asks(d *desk.Desk, t *talk, in asked, line waiting, said told) told {
	line.Recorded = t.Asked.AfterwardsAsked()
	if !in.unattended() {
		line = line.named(d)
		t.AskedTurn, t.Asker = t.Turn, &line
		return said
	}
	question := t.Asked
	t.Asked, t.Asker = nil, nil
	if at := t.waitingAt(question.Kept); at >= 0 {
		return s.tellWaits(d, told{Notes: said.Notes}, t.Waiting[at])
	}
	quiet := told{Notes: said.Notes}
	if line.Recorded {
		quiet.Lines = said.Lines
	}
	return s.tellWaits(d, quiet, t.wait(d, in, line, question.Text))
}

// listKey is a key of the list of lines that wait: w3 does the third, d3 drops it.
var listKey = regexp.MustCompile(`^([wd])([0-9]{1,5})$`)

// listLine acts on a key of the list, whatever screen is shown.
func (s *Station) listLine(d *desk.Desk, out *answer, in asked) (said told, isList bool, err error) {
	t := &out.Talk
	key := listKey.FindStringSubmatch(in.Line)
	if key == nil || len(t.Waiting) == 0 {
		return told{}, false, nil
	}
	no, _ := strconv.Atoi(key[2])
	at := t.waitingAt(no)
	if at < 0 {
		return told{}, true, inventory.Refuse(fmt.Sprintf("no line %d waits", no), "nothing was done")
	}
	line := t.Waiting[at]
	if key[1] == "d" {
		t.drop(no)
		return told{Tone: toneShown, Lines: []string{"dropped: " + line.say(d.Zone(), s.options.Desk.Now())}}, true, nil
	}
	if line.After != "" && (!in.saw(in.Talk.Turn) || in.age() >= soon) {
		return told{}, true, inventory.Refuse(fmt.Sprintf("line %d is done for what is shown, and that was another when %s was typed", no, in.Line), fmt.Sprintf("look at what is shown, then w%d", no))
	}
	said, err = s.take(d, out, line)
	return said, true, err
}

// take does a line that waited, as of when it was typed. It leaves the list when it is done,
// or when what it asks is answered.
func (s *Station) take(d *desk.Desk, out *answer, line waiting) (told, error) {
	t := &out.Talk
	t.setAside()
	mode := t.Grinding
	defer func() { t.Grinding = mode }() // what scans do here stays
	t.Screen = line.Screen
	if line.After == "" {
		line.restore(t)
	}
	fingerprint := cmp.Or(line.Fingerprint, fingerprintOf(line.Line, line.Screen))
	own := d.With(line.Key, fingerprint)
	if before, known, err := own.Known(); err != nil {
		return told{}, err
	} else if known {
		said, err := againAsking(own, out, line.Line, before, line.No)
		if t.AskedTurn, t.Asker = t.Turn, nil; t.Asked == nil {
			t.drop(line.No)
		}
		return said, err
	}
	t.Rows = nil // of a list that may be another than the one that was meant
	said, err := s.act(own.Happened(line.Typed), out, asked{Key: line.Key, Line: line.Line, Talk: *t}, jig.Origin{Typed: line.Typed, Kept: line.No, Key: line.Key, Fingerprint: fingerprint})
	switch {
	case err != nil && desk.FailureOf(err) != desk.Unprinted:
	case t.Asked != nil && t.Asked.Kept == line.No:
		t.AskedTurn, t.Asker = t.Turn, nil
	default:
		t.drop(line.No)
	}
	return said, err
}
