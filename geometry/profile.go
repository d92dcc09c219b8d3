package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// Arc is one radius of a profile and the length of steel that has it, measured
// along the runner.
type Arc struct {
	Radius, Length Millimetre
}

// Profile is the curve of a runner along its length, of one radius or several
// that pass into each other without a corner. Stations along it are measured
// from the middle of the ground length, positive to the toe.
type Profile struct {
	bends []bend
}

// bend is an arc put in its place. The sine of the tangent's angle grows evenly
// along an arc, by 1/R a millimetre: that is all the geometry there is.
type bend struct {
	from, to Millimetre // stations
	radius   Millimetre
	sine     float64    // of the tangent's angle at from
	rise     Millimetre // at from, above the lowest point with neutral pitch
}

// NewProfile joins arcs from heel to toe, each starting with the direction in
// which the last one ended. At the neutral station, within the steel, the
// tangent is level when the pitch is neutral. Radii and lengths are above 0, and
// no arc may turn as far as 90°.
func NewProfile(neutral Millimetre, heelToToe ...Arc) (Profile, error) {
	length, err := arcsLength(heelToToe)
	if err != nil {
		return Profile{}, err
	}
	if err := requireFinite("neutral station", neutral); err != nil {
		return Profile{}, err
	}
	if neutral.abs() > length/2 {
		return Profile{}, outOfRange("neutral station", neutral, "the steel ends "+(length/2).String()+" from its middle")
	}
	p := Profile{bends: place(-length/2, heelToToe)}
	if err := p.level(neutral); err != nil {
		return Profile{}, err
	}
	return p, nil
}

func arcsLength(arcs []Arc) (Millimetre, error) {
	if len(arcs) == 0 {
		return 0, errNoRadius()
	}
	length := Millimetre(0)
	for _, a := range arcs {
		if err := cmp.Or(requirePositive("profile radius", a.Radius), requirePositive("length of a radius", a.Length)); err != nil {
			return 0, err
		}
		length += a.Length
	}
	return length, requirePositive("length of the profile", length)
}

// place lays the arcs end to end with a level tangent at the heel.
func place(heel Millimetre, arcs []Arc) []bend {
	bends := make([]bend, len(arcs))
	from, sine := heel, 0.0
	for i, a := range arcs {
		bends[i] = bend{from: from, to: from + a.Length, radius: a.Radius, sine: sine}
		from, sine = from+a.Length, sine+float64(a.Length/a.Radius)
	}
	return bends
}

// level turns the whole curve until the tangent at a station is level, and
// stacks the arcs' rises from there.
func (p Profile) level(neutral Millimetre) error {
	turn := p.sineAt(neutral)
	for i := range p.bends {
		b := &p.bends[i]
		b.sine -= turn
		if end := b.sineAt(b.to); b.sine <= -1 || end >= 1 {
			return outOfRange("profile radius", b.radius, "it turns 90° within the steel: check the unit")
		}
	}
	for i := 1; i < len(p.bends); i++ {
		p.bends[i].rise = p.bends[i-1].riseAt(p.bends[i].from)
	}
	lowest := p.riseAt(neutral)
	for i := range p.bends {
		p.bends[i].rise -= lowest
	}
	return nil
}

func (b bend) sineAt(station Millimetre) float64 {
	return b.sine + float64((station-b.from)/b.radius)
}

// riseAt is R(cos φ₀ − cos φ), written so that no digits cancel on a flat arc.
func (b bend) riseAt(station Millimetre) Millimetre {
	sine := b.sineAt(station)
	cosines := math.Sqrt(1-b.sine*b.sine) + math.Sqrt(1-sine*sine)
	return b.rise + (station-b.from)*Millimetre((b.sine+sine)/cosines)
}

func (p Profile) at(station Millimetre) bend {
	for _, b := range p.bends {
		if station <= b.to {
			return b
		}
	}
	return p.bends[len(p.bends)-1]
}

func (p Profile) sineAt(station Millimetre) float64    { return p.at(station).sineAt(station) }
func (p Profile) riseAt(station Millimetre) Millimetre { return p.at(station).riseAt(station) }
func (p Profile) ends() (heel, toe Millimetre) {
	return p.bends[0].from, p.bends[len(p.bends)-1].to
}

func errNoRadius() error {
	return fmt.Errorf("a profile without a radius is %w: give one or more, heel to toe", ErrOutOfRange)
}
