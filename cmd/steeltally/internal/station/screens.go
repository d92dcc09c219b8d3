package station

import (
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
	out.Mark = desk.Mark(s.options.Desk) // before it is looked at: what comes meanwhile is drawn again
	out.Board = s.drawn(func() (string, error) {
		if err := out.Talk.FollowClock(d); err != nil {
			return "", err
		}
		board, err := d.Board()
		return s.render("board", newBoard(board, out.Talk)), err
	})
	out.Main = s.drawn(func() (string, error) { return s.screen(d, &out.Talk) })
}

// drawn is a part of the screen, or why it can't be drawn: the other parts stand.
func (s *Station) drawn(draw func() (string, error)) string {
	var html string
	err := inventory.Guard(func() (err error) {
		html, err = draw()
		return err
	})
	if err = desk.KeepFault(s.options.Desk, "drawing the screen", err); err != nil {
		return s.render("told", wrong(told{}, err))
	}
	return html
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
