package station

import (
	"errors"
	"regexp"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// tripRow is the key that chooses a trip from the list.
var tripRow = regexp.MustCompile(`^t([0-9]{1,3})$`)

// tripLine packs what was scanned for the trip that is chosen.
func tripLine(d *desk.Desk, out *answer, in asked) (told, error) {
	t, line := &out.Talk, in.Line
	if row := tripRow.FindStringSubmatch(line); row != nil && t.Trip == "" {
		name, err := in.row(row[1])
		if err != nil {
			return told{}, err
		}
		t.Trip, t.Trunk = name, ""
		return told{Tone: toneShown, Lines: []string{"trip " + t.Trip}}, nil
	}
	switch {
	case line == "":
		return told{Tone: toneShown, Lines: []string{"scan a trunk, then what goes into it"}}, nil
	case line == "t":
		t.Trip, t.Trunk = "", ""
		return told{Tone: toneShown, Lines: []string{"the other trips"}}, nil
	case line == "q":
		t.Screen = atJig
		return told{Tone: toneShown}, nil
	case line == "u" && len(t.Mine) == 0:
		return told{}, &inventory.Refusal{Reason: "nothing was recorded from here", Hint: "at the jig u asks about what was recorded elsewhere"}
	case line == "u":
		done, err := t.TakeBack(d)
		out.Recorded = err == nil
		t.Keep(done)
		return tellDone(done), err
	case t.Trip == "":
		return told{}, &inventory.Refusal{Reason: "no trip is chosen", Hint: "type the number of its row"}
	}
	if n, err := inventory.ScannedNumber(line); err == nil && n.Kind() == inventory.KindTrunk {
		t.Trunk = n.String()
		card, err := d.Card(line)
		return told{Tone: toneShown, Lines: append([]string{"into this trunk from now on: " + card.Title}, card.Lines...)}, err
	}
	if t.Trunk == "" {
		return told{}, &inventory.Refusal{Reason: "into which trunk?", Hint: "scan the trunk first; nothing was packed"}
	}
	done, err := d.Pack(t.Trip, t.Trunk, []string{line}, false)
	var not *desk.NotTakenError
	if errors.As(err, &not) {
		hint := "nothing was packed"
		if not.Unread[0].Trunk {
			t.Trunk, hint = "", hint+"; scan the trunk again" // what is scanned next may belong into another one
		}
		return told{}, &inventory.Refusal{Reason: line + ": " + not.Unread[0].Reason, Hint: hint}
	}
	out.Recorded = err == nil
	t.Keep(done)
	return tellDone(done), err
}

// tripScreen is which trips there are, and what the chosen one lacks.
type tripScreen struct {
	Talk  *talk
	Trips []desk.TripLine
	Short *desk.TripShort
	Holds []desk.StowageLine // trunk by trunk
	Trunk string
}

func (s *Station) tripScreen(d *desk.Desk, t *talk) (drawing, error) {
	show := tripScreen{Talk: t}
	var err error
	if t.Trip == "" {
		if show.Trips, err = d.TripList(false); err != nil {
			return nil, err
		}
		for _, trip := range show.Trips {
			t.Rows = append(t.Rows, trip.Name)
		}
	} else if show.Holds, err = d.Manifest(t.Trip); err != nil {
		t.Trip = ""
		return nil, err
	}
	if t.Trunk != "" {
		card, err := d.Card(t.Trunk)
		if err != nil {
			return nil, err
		}
		show.Trunk = card.Title
	}
	return func() (string, error) { return s.drawTrip(show) }, nil
}

// drawTrip draws the screen with what is short, for which all players are looked at.
func (s *Station) drawTrip(show tripScreen) (html string, err error) {
	switch {
	case show.Talk.Trip != "":
		err = s.overSquad(func(d *desk.Desk, squad *desk.Squad) error {
			short, err := d.ShortOf(show.Talk.Trip, squad)
			show.Short = &short
			return err
		})
	case desk.AnyToCome(show.Trips):
		err = s.overSquad(func(d *desk.Desk, squad *desk.Squad) error { return d.CountShort(show.Trips, squad) })
	}
	return s.render("trip", show), err
}
