package standing

import (
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

var start = time.Date(2025, 10, 1, 8, 0, 0, 0, time.UTC)

// steel makes a runner from what happened to it, in hours from a start.
type steel struct {
	*inventory.Runner
	sequence uint64
}

func newSteel(model string, height geometry.Millimetre) *steel {
	n, _ := inventory.NewNumber(inventory.KindRunner, 1, 1)
	s := &steel{Runner: &inventory.Runner{Number: n}}
	s.happens(0, &inventory.StockedIn{Pieces: []inventory.Number{n}, Model: model, Size: 280, Height: &height})
	return s
}

func (s *steel) happens(hour int, body inventory.Body) {
	s.sequence++
	s.Apply(&inventory.Event{
		Key: inventory.Key{Writer: "00000000000000a1", Sequence: s.sequence}, Logical: s.sequence,
		Happened: inventory.At(start.Add(time.Duration(hour) * time.Hour)), Body: body,
	})
}

func (s *steel) ground(hour, passes int) {
	work := &inventory.Ground{Work: "grind"}
	work.Left = &inventory.Passes{Runner: s.Number, Passes: &passes}
	if passes == 0 {
		work.Left.Passes = nil
	}
	s.happens(hour, work)
}

func (s *steel) measured(hour int, reference inventory.Reference, height geometry.Millimetre) {
	s.happens(hour, &inventory.Measured{Reference: reference, Heights: []inventory.Height{{Runner: s.Number, Middle: &height}}})
}

var later = start.AddDate(0, 1, 0)

// TestTellingReference takes the reference of which more is known.
func TestTellingReference(t *testing.T) {
	s := newSteel("Skua R", 21)
	telling := func(want inventory.Reference) {
		t.Helper()
		if got := Telling(s.Runner, later); got.Reference != want {
			t.Errorf("%s tells more, not %s", got.Reference, want)
		}
	}
	telling(inventory.Loose) // nothing measured: the height at stock-in is a loose one
	s.ground(1, 40)
	s.measured(2, inventory.Loose, 20.2)
	telling(inventory.Loose)
	s.ground(3, 40)
	s.measured(4, inventory.Fitted, 19.4)
	telling(inventory.Fitted) // one height each, the fitted one after more passes
	s.measured(5, inventory.Loose, 19.4)
	telling(inventory.Loose) // two heights against one
	s.ground(6, 0)
	s.measured(7, inventory.Fitted, 19)
	telling(inventory.Fitted) // passes since the last loose height are not known
}

// TestKindsByModelReferenceAndHeight puts runners together that begin alike.
func TestKindsByModelReferenceAndHeight(t *testing.T) {
	kinds := NewKinds()
	kind := func(s *steel) int {
		plain, _ := kinds.Runner(s.Runner, later)
		return plain.Kind
	}
	first, alike, higher, other := newSteel("Skua R", 21), newSteel("skua  r", 21.1), newSteel("Skua R", 24), newSteel("Petrel R", 21)
	fitted := newSteel("Skua R", 21)
	fitted.ground(1, 40)
	fitted.measured(2, inventory.Fitted, 20.2)
	a, b, c, d, e := kind(first), kind(alike), kind(higher), kind(other), kind(fitted)
	if a != b || a == c || a == d || a == e || c == d {
		t.Errorf("kinds %d %d %d %d %d", a, b, c, d, e)
	}
	list := kinds.List()
	if len(list) != 4 || list[a].Nominal < 21.04 || list[a].Nominal > 21.06 || list[e].Reference == list[a].Reference {
		t.Errorf("%+v", list)
	}
}

// TestAnotherZero says nothing of the height when new where fitted steel is measured
// from another edge.
func TestAnotherZero(t *testing.T) {
	kinds := NewKinds()
	var kind int
	for range 3 {
		s := newSteel("Skua R", 21)
		s.ground(1, 40)
		s.measured(2, inventory.Fitted, 12.2)
		plain, _ := kinds.Runner(s.Runner, later)
		kind = plain.Kind
	}
	if list := kinds.List(); list[kind].Nominal != 0 {
		t.Errorf("new steel is taken to be %v high", list[kind].Nominal)
	}
}

// TestTagAlone tells one height after all passes, or nothing.
func TestTagAlone(t *testing.T) {
	kinds := NewKinds()
	height, final := geometry.Millimetre(21), geometry.Millimetre(15.4)
	plain := kinds.Tag(&height, &final, 280, false)
	if len(plain.Stretches) != 1 || !plain.Stretches[0].New || plain.Stretches[0].Readings[0].Passes != 280 || plain.Stretches[0].Readings[0].Height != 15.4 {
		t.Errorf("%+v", plain)
	}
	if list := kinds.List(); list[plain.Kind].Nominal != 21 {
		t.Errorf("%+v", list)
	}
	for name, empty := range map[string]bool{
		"unknown passes": len(kinds.Tag(&height, &final, 280, true).Stretches) == 0, "no height new": len(kinds.Tag(nil, &final, 280, false).Stretches) == 0,
		"no final height": len(kinds.Tag(&height, nil, 280, false).Stretches) == 0, "never ground": len(kinds.Tag(&height, &final, 0, false).Stretches) == 0,
	} {
		if !empty {
			t.Errorf("a tag with %s tells of wear", name)
		}
	}
}

// TestADoubtedHeightHasNoVote leaves the height new of a model as it is, whatever slip was
// kept as read.
func TestADoubtedHeightHasNoVote(t *testing.T) {
	kinds := NewKinds()
	s := newSteel("Skua R", 21)
	slip := geometry.Millimetre(5.1)
	s.happens(1, &inventory.Measured{Reference: inventory.Loose, Heights: []inventory.Height{{Runner: s.Number, Middle: &slip, AsRead: true}}})
	plain, _ := kinds.Runner(s.Runner, later)
	if list := kinds.List(); list[plain.Kind].Nominal != 21 {
		t.Errorf("new steel is taken to be %v high, want 21", list[plain.Kind].Nominal)
	}
}
