package station

import (
	"errors"
	"net/http"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

// part shows a window's screen anew; nothing is recorded.
func (s *Station) part(w http.ResponseWriter, r *http.Request) {
	var in asked
	if !readJSON(w, r, &in) {
		return
	}
	out := answer{Talk: in.Talk}
	err := s.book.use("", func(d *desk.Desk) error {
		s.show(d, &out)
		return nil
	})
	if err != nil {
		out.Tone, out.Told = toneWrong, s.render("told", wrong(told{}, err))
	}
	writeJSON(w, out)
}

// show draws the board and the screen of a talk. What can't be shown says why.
func (s *Station) show(d *desk.Desk, out *answer) {
	board, err := d.Board()
	if err != nil {
		out.Board = s.render("told", wrong(told{}, err))
	} else {
		out.Board = s.render("board", newBoard(board, out.Talk))
	}
	main, err := s.screen(d, &out.Talk)
	if err != nil {
		main = s.render("told", wrong(told{}, err))
	}
	out.Main = main
}

// screen draws the screen that is shown.
func (s *Station) screen(d *desk.Desk, t *talk) (string, error) {
	switch t.Screen {
	case atDue:
		return s.render("due", nil), nil
	case atSpares:
		lines, err := d.Spares(desk.SparesAsked{Worst: true})
		return s.render("spares", lines), err
	case atTrip:
		return s.tripScreen(d, t)
	case atBin:
		return s.binScreen(d, t)
	case atTags:
		list, err := d.PrintList()
		return s.render("tags", tagsScreen{list, s.options.Printer}), err
	case atPiece:
		history, err := d.History(t.Piece, false)
		return s.render("piece", pieceScreen{shortOf(t.Piece), history}), err
	}
	t.Screen = atJig
	return s.jigScreen(d, t)
}

type tagsScreen struct {
	desk.PrintList
	Printer string
}

type pieceScreen struct {
	Number  string
	History desk.History
}

// boardScreen is who was logged today.
type boardScreen struct {
	Lines []desk.BoardLine
	Done  int
	Now   inventory.Number // whose card is shown
	jig.State
}

func newBoard(lines []desk.BoardLine, t talk) boardScreen {
	board := boardScreen{Lines: lines, Now: t.About.Player, State: t.State}
	for _, line := range lines {
		if line.Done {
			board.Done++
		}
	}
	return board
}

// jigScreen is what is shown of what was scanned.
type jigScreen struct {
	Talk   *talk
	Bench  *desk.Bench
	Card   *desk.Card // of what is no player's
	Rescue *desk.Rescue
	Whole  bool // a whole set was scanned, not a piece of it
	PDF    bool // tags come as a PDF
}

func (s *Station) jigScreen(d *desk.Desk, t *talk) (string, error) {
	show := jigScreen{Talk: t, PDF: s.options.Printer == ""}
	about := t.About
	if crisis := t.Crisis; crisis != nil && crisis.Player == about.Player {
		rescue, err := d.Rescue(crisis.Player, crisis.Pair, crisis.Side, crisis.Since)
		if err != nil {
			return "", err
		}
		show.Rescue = &rescue
		return s.render("jig", show), nil
	}
	if about.Number == 0 {
		return s.render("jig", show), nil
	}
	kind := about.Number.Kind()
	if kind == inventory.KindPlayer || kind == inventory.KindPair {
		bench, err := d.Bench(about.Target)
		show.Bench = &bench
		return s.render("jig", show), err
	}
	card, err := d.Card(about.Number.String())
	show.Card, show.Whole = &card, kind == inventory.KindSet
	return s.render("jig", show), err
}

// binScreen is what the scans of the bin come to so far.
func (s *Station) binScreen(d *desk.Desk, t *talk) (string, error) {
	if len(t.Bin) == 0 {
		return s.render("bin", nil), nil
	}
	review, err := d.Review(desk.ReviewAsked{Scans: t.Bin, Bin: true})
	if err != nil {
		return "", err
	}
	return s.render("bin", review), nil
}

// binLine takes a scan into the bin.
func binLine(t *talk, line string) told {
	switch {
	case line == "":
		return told{Tone: toneShown, Lines: []string{"scan the tags of the bin, one after the other"}}
	case line == "u" && len(t.Bin) > 0:
		last := t.Bin[len(t.Bin)-1]
		t.Bin = t.Bin[:len(t.Bin)-1]
		return told{Tone: toneShown, Lines: []string{"left out again: " + shortOf(last)}}
	case line == "q":
		t.Bin, t.Screen = nil, atJig
		return told{Tone: toneShown, Lines: []string{"the bin is put away; nothing of it was recorded"}}
	}
	before := len(t.Bin)
	n, err := inventory.ScannedNumber(line)
	for _, earlier := range t.Bin {
		if other, known := inventory.ScannedNumber(earlier); err == nil && known == nil && other == n {
			return told{Tone: toneAsked, Lines: []string{n.Short() + " was scanned before: counted once"}}
		}
	}
	if before >= mostBin {
		return told{Tone: toneWrong, Lines: []string{"the bin is full: review it, then q puts it away"}}
	}
	if err != nil {
		return told{Tone: toneWrong, Lines: []string{err.Error()}, Notes: []inventory.Notice{{Text: "not taken into the bin"}}}
	}
	t.Bin = append(t.Bin, line)
	return told{Tone: toneShown, Lines: []string{shortOf(line), plural(len(t.Bin), "piece")}}
}

// mostBin is more than any bin holds.
const mostBin = 2000

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
		if line == "t"+strings.TrimSpace(numeral(i+1)) {
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
