package geometry

import "testing"

// −R·sin(atan(p/b)), 40 digits (mpmath 1.3.0): 1 mm over 160 mm on 11 ft, and
// 0.5 mm growing to 0.8 mm on 10 ft.
func TestBalanceAgainstLongArithmetic(t *testing.T) {
	at, err := BalanceAt(feet(11), 1, 160)
	sound(t, err)
	near(t, "balance point", at, -20.954590734646, 1e-10)
	moved, err := WearMovesBalance(feet(10), 0.5, 160, 0.2, 0.5)
	sound(t, err)
	near(t, "movement", moved.Move, -5.7148560120202, 1e-10)
	near(t, "pitch change", moved.PitchChange, 0.3, 1e-15)
}

// The closed form agrees with the contact search on the pitched profile.
func TestBalanceIsTheContactsLowestPoint(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(9), 280})
	sound(t, err)
	for _, pitch := range []Millimetre{-2, -0.4, 0, 0.7, 3} {
		want, err := BalanceAt(feet(9), pitch, 160)
		sound(t, err)
		angle, err := PitchAngle(pitch, 160)
		sound(t, err)
		contact, err := p.Contact(angle, 0.05)
		sound(t, err)
		near(t, "lowest point", contact.LowestPoint, want, 1e-9)
	}
}

// wearing takes losses, even in between, off a runner's heights.
func wearing(heights []HeightAt, heel, toe Millimetre) []HeightAt {
	var after []HeightAt
	for _, h := range heights {
		part := (h.Station + 80) / 160
		after = append(after, HeightAt{h.Station, h.Height - heel*(1-part) - toe*part})
	}
	return after
}

// Heights before and after even-sloped wear show the movement that the closed
// form foretells. Such wear shears the circle rather than turning it: hence the
// few micrometres between the two.
func TestBothWaysToTheMovementAgree(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(11), 280})
	sound(t, err)
	before := heightsOf(t, p, 0, -80, -40, 0, 40, 80)
	for _, loss := range []struct{ heel, toe Millimetre }{{0, 0}, {1, 1}, {0.2, 0.6}, {2, 1.2}} {
		want, err := WearMovesBalance(feet(11), 0, 160, loss.heel, loss.toe)
		sound(t, err)
		was, is := mustRocker(t, before), mustRocker(t, wearing(before, loss.heel, loss.toe))
		near(t, "movement", is.BalancePoint-was.BalancePoint, want.Move, 5e-3)
		near(t, "pitch change", is.HeelMinusToe-was.HeelMinusToe, want.PitchChange, 1e-4)
		near(t, "radius ratio", is.Radius/was.Radius, 1, 1e-4)
	}
}

// Wear alike at both ends moves nothing; more at the toe moves the balance point
// to the heel, the more the flatter the profile.
func TestUnevenWearProperties(t *testing.T) {
	even, err := WearMovesBalance(feet(11), 0.5, 160, 3, 3)
	sound(t, err)
	near(t, "even wear", even.Move, 0, 0)
	round, err := WearMovesBalance(feet(9), 0, 160, 0, 0.4)
	sound(t, err)
	flat, err := WearMovesBalance(feet(13), 0, 160, 0, 0.4)
	sound(t, err)
	if !(flat.Move < round.Move && round.Move < 0) {
		t.Errorf("toe wear does not move the balance point back, more on flat steel: %v, %v", round.Move, flat.Move)
	}
}

func TestBalanceRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := BalanceAt(bad, 1, 160)
		refused(t, "radius", err)
		_, err = BalanceAt(feet(11), 1, bad)
		refused(t, "span", err)
	}
	for _, bad := range noLengths()[:4] {
		_, err := WearMovesBalance(feet(11), 0, 160, bad, 0)
		refused(t, "heel loss", err)
		_, err = WearMovesBalance(feet(11), 0, 160, 0, bad)
		refused(t, "toe loss", err)
	}
}

func TestBalanceMeaning(t *testing.T) {
	for toe, want := range map[Millimetre]string{
		0:   "The balance point has moved 8 mm to the toe: level on the ice as before, the skater tips to the heel.",
		0.4: "The balance point has not moved.",
		0.8: "The balance point has moved 8 mm to the heel: level on the ice as before, the skater tips to the toe.",
	} {
		got, err := WearMovesBalance(feet(11), 0, 160, 0.4, toe)
		sound(t, err)
		if got.Meaning() != want {
			t.Errorf("got %q, want %q", got.Meaning(), want)
		}
	}
}
