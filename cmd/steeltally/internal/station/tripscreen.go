package station

import (
	"errors"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// tripLine packs what was scanned for the trip that is chosen.
func tripLine(d *desk.Desk, out *answer, line string) (told, error) {
	t := &out.Talk
	trips, err := d.Trips(false)
	if err != nil {
		return told{}, err
	}
	if chosen := pickTrip(trips, line); chosen != "" {
		t.Trip, t.Trunk = chosen, ""
		return told{Tone: toneShown, Lines: []string{"trip " + chosen}}, nil
	}
	switch {
	case line == "" || line == "q":
		t.Screen = atJig
		return told{Tone: toneShown}, nil
	case line == "u":
		done, err := d.Correct(desk.Correction{})
		out.Recorded = err == nil
		return tellDone(done), err
	case t.Trip == "":
		return told{}, &inventory.Refusal{Reason: "no trip is chosen", Hint: "type the number of its row"}
	}
	if n, err := inventory.ScannedNumber(line); err == nil && n.Kind() == inventory.KindTrunk {
		t.Trunk = n.String()
		card, err := d.Card(line)
		return told{Tone: toneShown, Lines: append([]string{"into this trunk from now on: " + card.Title}, card.Lines...)}, err
	}
	done, err := d.Pack(t.Trip, t.Trunk, []string{line}, false)
	var not *desk.NotTakenError
	if errors.As(err, &not) {
		return told{}, &inventory.Refusal{Reason: line + ": " + not.Unread[0].Reason, Hint: "nothing was packed"}
	}
	out.Recorded = err == nil
	return tellDone(done), err
}

// pickTrip is the trip of a row, by its number.
func pickTrip(trips []desk.TripLine, line string) string {
	for i, trip := range trips {
		if line == "t"+numeral(i+1) {
			return trip.Name
		}
	}
	return ""
}

// tripScreen is which trips there are, and what the chosen one lacks.
type tripScreen struct {
	Talk  *talk
	Trips []desk.TripLine
	Short *desk.TripShort
	Trunk string
}

func (s *Station) tripScreen(d *desk.Desk, t *talk) (string, error) {
	trips, err := d.Trips(false)
	if err != nil {
		return "", err
	}
	show := tripScreen{Talk: t, Trips: trips}
	if t.Trip != "" {
		short, err := d.Short(t.Trip)
		if err != nil {
			t.Trip = ""
			return "", err
		}
		show.Short = &short
	}
	if t.Trunk != "" {
		card, err := d.Card(t.Trunk)
		if err != nil {
			return "", err
		}
		show.Trunk = card.Title
	}
	return s.render("trip", show), nil
}
