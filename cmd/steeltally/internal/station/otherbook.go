package station

import (
	"slices"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
)

// ofOther is said of what was typed before the station was started on another club's book.
const ofOther = "it was typed for another club's book, where its numbers are other things"

// meets lets go of what a talk knows of another club's book: only its lines that wait stay.
func (t *talk) meets(d *desk.Desk) error {
	now, same, err := d.KnownAs(t.Book)
	if err != nil || same {
		t.Book = now
		return err
	}
	t.setAside()
	waiting := slices.Clone(t.Waiting)
	for i, w := range waiting {
		waiting[i].Why, waiting[i].For = ofOther, ""
		waiting[i].About, waiting[i].Asked, waiting[i].Readings = jig.About{}, nil, nil
		if waiting[i].Trip = ""; w.Screen == atTrip {
			waiting[i].Trunk = ""
		}
	}
	*t = talk{Book: now, Screen: t.Screen, Turn: t.Turn, Waiting: waiting, Waits: t.Waits}
	return nil
}

// ofOther tells whether a line was typed for another club's book.
func (in asked) ofOther(d *desk.Desk) (bool, error) {
	if in.Typed == nil {
		return false, nil
	}
	_, same, err := d.KnownAs(in.Typed.Book)
	return !same, err
}
