package station

import (
	"bytes"
	"html/template"
	"net/http"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// plot draws the steel of a pair. What is to be expected is drawn from what was learnt
// last, so that the picture never waits for it; ?fresh=1 waits.
func (s *Station) plot(w http.ResponseWriter, r *http.Request) {
	outlook := s.sight.atHand()
	if r.URL.Query().Get("fresh") != "" {
		var err error
		if outlook, err = s.sight.now(); err != nil {
			fail(w, err)
			return
		}
	}
	var steel desk.PlayerSteel
	err := s.book.use("", func(d *desk.Desk) (err error) {
		steel, err = d.PlayerSteel(r.PathValue("pair"))
		return err
	})
	var svg bytes.Buffer
	if err == nil {
		err = steel.WriteSVG(&svg, outlook)
	}
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Write(svg.Bytes())
}

// slow draws what a screen shows besides its words: of the bin its trends, and
// of what is due the list, which takes a while to work out.
func (s *Station) slow(w http.ResponseWriter, r *http.Request) {
	var in asked
	if !readJSON(w, r, &in) {
		return
	}
	html := s.drawn(func() (string, error) { return s.slowPart(in.Talk) })
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write([]byte(html))
}

func (s *Station) slowPart(t talk) (html string, err error) {
	if t.Screen == atDue {
		return s.dueList()
	}
	var read desk.ReviewRead
	err = s.book.use("", func(d *desk.Desk) (err error) {
		read, err = d.ReadReview(desk.ReviewAsked{Scans: t.Bin, Bin: true})
		return err
	})
	if err != nil {
		return "", err
	}
	review, err := read.Compile()
	if err != nil {
		return "", err
	}
	pictures, err := desk.ReviewPictures(review)
	for _, p := range pictures {
		html += s.render("picture", drawn{p.Title, template.HTML(p.SVG)})
	}
	return html, err
}

// dueScreen is what is due, and of whom that can't be told.
type dueScreen struct {
	Aside    string // what nobody may skate on by what is set aside
	Sections []desk.DueSection
	Unworked []inventory.Unworked
}

func (s *Station) dueList() (string, error) {
	outlook, err := s.sight.now()
	if err != nil {
		return "", err
	}
	var zone *time.Location
	var aside desk.UnsafeAsides
	err = s.book.use("", func(d *desk.Desk) (err error) {
		zone = d.Zone()
		aside, err = d.UnsafeAsides()
		return err
	})
	if err != nil {
		return "", err
	}
	list := desk.DueAtHand(s.options.Desk, outlook)
	return s.render("duelist", dueScreen{aside.Say(), desk.DueSections(list.Players, zone), list.Unworked}), nil
}

// drawn is a picture that the program itself drew, every word in it escaped.
type drawn struct {
	Title string
	SVG   template.HTML
}
