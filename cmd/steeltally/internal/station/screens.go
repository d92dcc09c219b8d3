package station

import (
	"html/template"
	"net/http"

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
	draw := nothing
	err := s.book.use("", func(d *desk.Desk) error {
		if err := out.Talk.meets(d); err != nil {
			return err
		}
		draw = s.show(d, &out)
		return nil
	})
	draw()
	if err != nil {
		unopened(w, err)
		return
	}
	writeJSON(w, out)
}

// nothing is drawn where the book could not be read.
func nothing() {}

// show reads the board and the screen of a talk. What it gives draws both, without the
// book; what can't be shown says why.
func (s *Station) show(d *desk.Desk, out *answer) (draw func()) {
	out.Mark = desk.Mark(s.options.Desk) // before it is looked at: what comes meanwhile is drawn again
	board := s.reading(func() (drawing, error) { return s.readBoard(d, &out.Talk) })
	waiting := s.readWaiting(d, &out.Talk)
	out.Talk.Rows = nil
	main := s.reading(func() (drawing, error) { return s.screen(d, &out.Talk) })
	return func() { out.Board, out.Waiting, out.Main = s.drawn(board), s.drawn(waiting), s.drawn(main) }
}

func (s *Station) readBoard(d *desk.Desk, t *talk) (drawing, error) {
	if err := t.FollowClock(d); err != nil {
		return nil, err
	}
	lines, err := d.Board()
	return s.of("board", newBoard(lines, *t)), err
}

// drawing draws something that was read.
type drawing func() (html string, err error)

// of draws a part of a page.
func (s *Station) of(name string, data any) drawing {
	return func() (string, error) { return s.render(name, data), nil }
}

// reading reads a part of the screen. What takes long is read in turns of its own when it
// is drawn, so that who waits for the book gets it in between; one that can't be read is drawn as why it can't.
func (s *Station) reading(read func() (drawing, error)) drawing {
	var what drawing
	err := inventory.Guard(func() (err error) {
		what, err = read()
		return err
	})
	if err != nil {
		return func() (string, error) { return "", err }
	}
	return what
}

// drawn is a part of the screen, or why it can't be drawn: the other parts stand.
func (s *Station) drawn(draw drawing) string {
	var html string
	err := inventory.Guard(func() (err error) {
		if html, err = draw(); err != nil || !desk.ShowsPiece(html) {
			return err
		}
		return s.book.use("", func(d *desk.Desk) error {
			html = d.WarnedPage(html)
			return nil
		})
	})
	if err = desk.KeepFault(s.options.Desk, "drawing the screen", err); err != nil {
		return s.render("told", wrong(told{}, err))
	}
	return html
}

// screen reads the screen that is shown.
func (s *Station) screen(d *desk.Desk, t *talk) (drawing, error) {
	switch t.Screen {
	case atDue:
		return s.of("due", nil), nil
	case atSpares:
		return s.spares, nil
	case atTrip:
		return s.tripScreen(d, t)
	case atBin:
		return s.binScreen(d, t)
	case atTags:
		list, err := d.PrintList()
		for _, job := range list.Jobs {
			t.Rows = append(t.Rows, rowOf(job))
		}
		return s.of("tags", tagsScreen{list, s.options.Printer}), err
	case atTest:
		return s.testScreen(t)
	case atPiece:
		history, err := d.History(t.Piece, false)
		return s.of("piece", pieceScreen{shortOf(t.Piece), history}), err
	}
	t.Screen = atJig
	return s.jigScreen(d, t)
}

// spares is the list of the spare pairs, read in turns of its own.
func (s *Station) spares() (html string, err error) {
	var lines []desk.SpareLine
	err = s.overSquad(func(d *desk.Desk, squad *desk.Squad) (err error) {
		lines, err = d.WorstSpares(squad)
		return err
	})
	return s.render("spares", lines), err
}

// overSquad looks at all players' steel, in as many turns as it takes where others wait,
// and then works with it on the book.
func (s *Station) overSquad(work func(*desk.Desk, *desk.Squad) error) error {
	if s.sight.atHand() == nil {
		if _, err := s.sight.now(); err != nil {
			return err
		}
	}
	var squad desk.Squad
	for !squad.Read() {
		if err := s.book.use("", func(d *desk.Desk) error { return d.ReadSquad(&squad) }); err != nil {
			return err
		}
	}
	return s.book.use("", func(d *desk.Desk) error { return work(d, &squad) })
}

type tagsScreen struct {
	desk.PrintList
	Printer string
}

type pieceScreen struct {
	Number  string
	History desk.History
}

// boardScreen is who was logged this session.
type boardScreen struct {
	Lines []desk.BoardLine
	Done  int
	Now   inventory.Number // whose card is shown
	AtJig bool
	jig.State
}

func newBoard(lines []desk.BoardLine, t talk) boardScreen {
	board := boardScreen{Lines: lines, Now: t.About.Player, AtJig: t.atJig(), State: t.State}
	for _, line := range lines {
		if line.Done {
			board.Done++
		}
	}
	return board
}

// binScreen is what the scans of the bin come to so far.
func (s *Station) binScreen(d *desk.Desk, t *talk) (drawing, error) {
	if len(t.Bin) == 0 {
		return s.of("bin", nil), nil
	}
	read, err := d.ReadReview(desk.ReviewAsked{Scans: t.Bin, Bin: true})
	return func() (string, error) {
		review, err := read.Compile()
		return s.render("bin", review), err
	}, err
}

// binLine takes a scan into the bin.
func binLine(t *talk, line string) (told, error) {
	switch {
	case line == "":
		return told{Tone: toneShown, Lines: []string{"scan the tags of the bin, one after the other"}}, nil
	case line == "u" && len(t.Bin) > 0:
		last := t.Bin[len(t.Bin)-1]
		t.Bin = t.Bin[:len(t.Bin)-1]
		return told{Tone: toneShown, Lines: []string{"left out again: " + shortOf(last)}}, nil
	case line == "q":
		t.Bin, t.Screen = nil, atJig
		return told{Tone: toneShown, Lines: []string{"the bin is put away; nothing of it was recorded"}}, nil
	}
	before := len(t.Bin)
	n, err := inventory.ScannedNumber(line)
	for _, earlier := range t.Bin {
		if other, known := inventory.ScannedNumber(earlier); err == nil && known == nil && other == n {
			return told{Tone: toneLook, Lines: []string{n.Short() + " was scanned before: counted once"}}, nil
		}
	}
	if before >= mostBin {
		return told{}, &inventory.Refusal{Reason: "the bin is full", Hint: "review it, then q puts it away"}
	}
	if err != nil {
		return told{}, inventory.Refuse(err.Error(), "not taken into the bin")
	}
	t.Bin = append(t.Bin, line)
	return told{Tone: toneShown, Lines: []string{shortOf(line), desk.SayCount(len(t.Bin), "piece")}}, nil
}

// mostBin is more than any bin holds.
const mostBin = 2000

// jigScreen is what is shown of what was scanned.
type jigScreen struct {
	Talk   *talk
	Bench  *desk.Bench
	Card   *desk.Card // of what is no player's
	Rescue *desk.Rescue
	Whole  bool // a whole set was scanned, not a piece of it
	Runner bool // one runner was
	PDF    bool // tags come as a PDF
}

func (s *Station) jigScreen(d *desk.Desk, t *talk) (drawing, error) {
	show := jigScreen{Talk: t, PDF: s.options.Printer == ""}
	about := t.About
	kind := about.Number.Kind()
	whole := kind == inventory.KindPlayer || kind == inventory.KindPair
	if crisis := t.Crisis; crisis != nil && crisis.Player == about.Player && (whole || about == t.Alarmed) {
		rescue, err := d.Rescue(crisis.Player, crisis.Pair, crisis.Side, crisis.Since)
		if err != nil {
			return nil, err
		}
		show.Rescue = &rescue
		return s.of("jig", show), nil
	}
	if about.Number == 0 {
		return s.of("jig", show), nil
	}
	if whole {
		bench, err := d.Bench(about.Target)
		show.Bench = &bench
		return s.of("jig", show), err
	}
	card, err := d.Card(about.Number.String())
	show.Card, show.Whole, show.Runner = &card, kind == inventory.KindSet, kind == inventory.KindRunner
	return s.of("jig", show), err
}

// testScreen is three codes to scan, and what the scanner did with them.
type testScreen struct {
	Codes  []testCode
	Report jig.ScannerReport
}

type testCode struct {
	Title string
	SVG   template.HTML
	Heard bool
}

func (s *Station) testScreen(t *talk) (drawing, error) {
	codes, err := desk.TestCodes()
	if err != nil {
		return nil, err
	}
	show := testScreen{Report: jig.ReportScanner(codes, t.Heard)}
	for i, code := range codes {
		show.Codes = append(show.Codes, testCode{code.Title, template.HTML(code.SVG()), show.Report.Heard[i]})
	}
	return s.of("scanner", show), nil
}
