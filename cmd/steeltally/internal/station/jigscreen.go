package station

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

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
