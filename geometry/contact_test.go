package geometry

import "testing"

// 2√(2Rδ−δ²), computed with 40 digits (mpmath 1.3.0).
func TestContactLengthAgainstLongArithmetic(t *testing.T) {
	for _, row := range []struct{ radius, indentation, want Millimetre }{
		{feet(11), 0.05, 36.62116874159},
		{feet(9), 0.03, 25.658612589148},
		{feet(13), 0.1, 56.301687363702},
		{3400, 0.02, 23.323773279639},
	} {
		got, err := ContactLength(row.radius, row.indentation)
		sound(t, err)
		near(t, "contact length", got, row.want, 1e-11)
	}
}

// The search over a profile of one radius gives the closed form, wherever the
// pitch puts the lowest point, and the lowest point is the balance point.
func TestContactOfOneRadiusIsTheClosedForm(t *testing.T) {
	for _, radius := range []Millimetre{feet(6), feet(9), feet(11), feet(13), feet(30)} {
		p, err := NewProfile(0, Arc{radius, 280})
		sound(t, err)
		for _, indentation := range []Millimetre{0.001, 0.02, 0.05, 0.1} {
			want, err := ContactLength(radius, indentation)
			sound(t, err)
			for _, pitch := range []Degree{0, 0.2, -0.2} {
				got, err := p.Contact(pitch, indentation)
				sound(t, err)
				near(t, "contact length", got.Length, want, 1e-9)
				near(t, "lowest point", got.LowestPoint, -radius*Millimetre(sine(pitch)), 1e-10)
				near(t, "balance point", got.BalancePoint, got.LowestPoint, 1e-9)
				closed, err := ContactOnOneRadius(radius, pitch, indentation)
				sound(t, err)
				near(t, "heel end", got.HeelEnd, closed.HeelEnd, 1e-9)
				near(t, "toe end", got.ToeEnd, closed.ToeEnd, 1e-9)
				near(t, "closed length", closed.Length, want, 0)
				near(t, "closed lowest point", closed.LowestPoint, got.LowestPoint, 1e-10)
			}
		}
	}
}

// Several radii, each circle built from its centre, the joints' normals shared,
// and cut with the ice line: computed with 40 digits (mpmath 1.3.0).
func TestContactOfSeveralRadiiAgainstLongArithmetic(t *testing.T) {
	two, err := NewProfile(0, Arc{feet(9), 140}, Arc{feet(13), 140})
	sound(t, err)
	for _, row := range []struct {
		profile                   Profile
		pitch                     Degree
		indentation               Millimetre
		length, lowest, heel, toe Millimetre
	}{
		{two, 0, 0.05, 36.46824827853, 0, -16.56253301884, 19.90571525969},
		{two, 0.3, 0.05, 33.17186019269, -14.36329598235, -30.92534016789, 2.246065313146},
		{two, -0.3, 0.05, 39.81143051939, 20.74698308562, 0.8412788903513, 40.6521636845},
		{threeRadii(t), 0, 0.05, 34.91690135164, -5, -22.45845067582, 12.45845067582},
		{threeRadii(t), 1, 0.1, 41.07433133164, -54.9169608925, -74.03689438285, -32.96881887082},
	} {
		got, err := row.profile.Contact(row.pitch, row.indentation)
		sound(t, err)
		near(t, "contact length", got.Length, row.length, 1e-9)
		near(t, "lowest point", got.LowestPoint, row.lowest, 1e-9)
		near(t, "heel end", got.HeelEnd, row.heel, 1e-9)
		near(t, "toe end", got.ToeEnd, row.toe, 1e-9)
		// Middle of the ice line and middle below it differ by δ·sin(pitch).
		near(t, "balance point", got.BalancePoint, (row.heel+row.toe)/2, 0.002)
		if got.Clipped {
			t.Error("says that the contact runs off the steel")
		}
	}
}

// Half of each radius: with the joint lowest, the contact is the mean of both
// lengths and the balance point lies on the flatter side.
func TestContactAcrossAJoint(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(9), 140}, Arc{feet(13), 140})
	sound(t, err)
	got, err := p.Contact(0, 0.05)
	sound(t, err)
	nine, err := ContactLength(feet(9), 0.05)
	sound(t, err)
	thirteen, err := ContactLength(feet(13), 0.05)
	sound(t, err)
	near(t, "length", got.Length, (nine+thirteen)/2, 1e-9)
	near(t, "balance point", got.BalancePoint, (thirteen-nine)/4, 1e-9)
}

func TestContactGrows(t *testing.T) {
	p := threeRadii(t)
	last := Contact{}
	for indentation := Millimetre(0.005); indentation < 0.5; indentation += 0.005 {
		got, err := p.Contact(0, indentation)
		sound(t, err)
		if got.Length <= last.Length {
			t.Fatalf("contact does not grow at %v", indentation)
		}
		last = got
	}
	none, err := p.Contact(0, 0)
	sound(t, err)
	near(t, "length without indentation", none.Length, 0, 1e-5)
}

func TestContactRunsOffTheEnd(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(11), 40})
	sound(t, err)
	got, err := p.Contact(0, 1)
	sound(t, err)
	if !got.Clipped || got.HeelEnd != -20 || got.ToeEnd != 20 {
		t.Errorf("40 mm of steel pressed 1 mm in is not all in the ice: %+v", got)
	}
	near(t, "length of all the steel", got.Length, 40, 1e-9)
}

// More pitch forward puts the lowest point farther back.
func TestForwardPitchMovesTheLowestPointBack(t *testing.T) {
	p := threeRadii(t)
	last := Millimetre(140)
	for pitch := Degree(-1.5); pitch <= 1.5; pitch += 0.1 {
		got, err := p.Contact(pitch, 0.05)
		sound(t, err)
		if got.LowestPoint >= last {
			t.Fatalf("lowest point does not move back at %v", pitch)
		}
		last = got.LowestPoint
	}
}

// At each joint the tangent belongs to both arcs, whatever rounding says.
func TestContactLowestAtEveryJoint(t *testing.T) {
	for cut := Millimetre(1); cut < 280; cut += 0.7 {
		p, err := NewProfile(cut-140, Arc{feet(9), cut}, Arc{feet(13), 280 - cut})
		sound(t, err)
		got, err := p.Contact(0, 0.01)
		sound(t, err)
		near(t, "lowest point", got.LowestPoint, cut-140, 1e-10)
	}
}

func TestContactRefuses(t *testing.T) {
	p := threeRadii(t)
	for _, bad := range noLengths()[:4] {
		_, err := ContactLength(feet(11), bad)
		refused(t, "indentation", err)
		_, err = p.Contact(0, bad)
		refused(t, "indentation", err)
	}
	for _, bad := range noLengths() {
		_, err := ContactLength(bad, 0.05)
		refused(t, "radius", err)
	}
	for _, bad := range noNumbers() {
		_, err := p.Contact(Degree(bad), 0.05)
		refused(t, "pitch", err)
		_, err = ContactOnOneRadius(feet(11), Degree(bad), 0.05)
		refused(t, "pitch", err)
	}
	_, err := ContactLength(1, 1.1)
	refused(t, "indentation past the radius", err)
	for _, tooMuch := range []Degree{5, -5} {
		_, err = p.Contact(tooMuch, 0.05)
		refused(t, "lowest point off the steel", err)
	}
}

func TestContactMeaning(t *testing.T) {
	p := threeRadii(t)
	got, err := p.Contact(0, 0.05)
	sound(t, err)
	want := "35 mm of steel in the ice, balanced 5 mm behind the middle: more steel glides and stands steadier, less turns quicker."
	if got.Meaning() != want {
		t.Errorf("got %q, want %q", got.Meaning(), want)
	}
	got.Clipped, got.BalancePoint = true, 0.4
	want = "35 mm of steel in the ice, balanced in the middle: more steel glides and stands steadier, less turns quicker; the contact runs off the end of the steel."
	if got.Meaning() != want {
		t.Errorf("got %q, want %q", got.Meaning(), want)
	}
}
