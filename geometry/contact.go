package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// ContactLength is the length of steel in the ice for one radius pressed in by
// an indentation, 2√(2Rδ − δ²), for 0 ≤ indentation ≤ radius: the chord that
// the ice cuts off the profile.
//
// Source: Machinery's Handbook, 31st ed., p. 79.
func ContactLength(radius, indentation Millimetre) (Millimetre, error) {
	if err := cmp.Or(requirePositive("profile radius", radius), requireNotNegative("indentation", indentation)); err != nil {
		return 0, err
	}
	if indentation > radius {
		return 0, outOfRange("indentation", indentation, "it cannot pass the radius, "+radius.String())
	}
	return ChordLength(radius, indentation)
}

// Contact is the part of a runner that is in the ice.
type Contact struct {
	Length       Millimetre `json:"contact_mm"` // along the ice
	LowestPoint  Millimetre `json:"lowest_mm"`  // station, from the middle to the toe
	BalancePoint Millimetre `json:"balance_mm"` // station under the middle of the contact
	HeelEnd      Millimetre `json:"heel_end_mm"`
	ToeEnd       Millimetre `json:"toe_end_mm"`
	Clipped      bool       `json:"clipped"` // the contact runs off an end of the steel
}

// ContactOnOneRadius is what Contact finds on endless steel of one radius, in
// closed form: half the contact is seen from the centre under acos(1 − δ/R).
// Ranges as for ContactLength; the pitch lies within ±90°.
func ContactOnOneRadius(radius Millimetre, pitch Degree, indentation Millimetre) (Contact, error) {
	length, err := ContactLength(radius, indentation)
	if err != nil {
		return Contact{}, err
	}
	if err := requireAngle("pitch", pitch, -90, 90); err != nil {
		return Contact{}, err
	}
	half := arctangent(length/2, radius-indentation)
	at := func(angle Degree) Millimetre { return radius * Millimetre(sine(angle)) }
	return Contact{
		Length: length, LowestPoint: at(-pitch), BalancePoint: at(-pitch),
		HeelEnd: at(-pitch - half), ToeEnd: at(-pitch + half),
	}, nil
}

// Contact finds where a runner touches the ice when the boot is level, for a
// pitch (positive forward) and an indentation of 0 or more. The lowest point is
// where the tangent is parallel to the ice. The balance point is the middle of
// the contact: ice gives way at one pressure, its hardness, so that its push
// acts in the middle (from memory, no source at hand). For one radius both are
// the same point.
//
// A pitch that puts the lowest point off the steel is an error.
func (p Profile) Contact(pitch Degree, indentation Millimetre) (Contact, error) {
	if err := cmp.Or(requireNotNegative("indentation", indentation), requireAngle("pitch", pitch, -90, 90)); err != nil {
		return Contact{}, err
	}
	lowest, err := p.lowest(pitch)
	if err != nil {
		return Contact{}, err
	}
	heelmost, toemost := p.ends()
	ice := iceLine{profile: p, lowest: lowest, sine: -sine(pitch), cosine: cosine(pitch)}
	heel, heelClipped := ice.meets(lowest, heelmost, indentation)
	toe, toeClipped := ice.meets(lowest, toemost, indentation)
	back, ahead := ice.along(heel), ice.along(toe)
	return Contact{
		Length: ahead - back, LowestPoint: lowest,
		BalancePoint: lowest + (back+ahead)/2*Millimetre(ice.cosine),
		HeelEnd:      heel, ToeEnd: toe, Clipped: heelClipped || toeClipped,
	}, nil
}

// lowest is the station where the tangent, level with the boot at neutral
// pitch, leans back by the pitch.
func (p Profile) lowest(pitch Degree) (Millimetre, error) {
	if len(p.bends) == 0 {
		return 0, errNoRadius()
	}
	wanted := -sine(pitch)
	if wanted >= p.bends[0].sine {
		for _, b := range p.bends {
			if wanted <= b.sineAt(b.to) {
				// max: at a joint, rounding may leave a hair between two arcs.
				return max(b.from, b.from+b.radius*Millimetre(wanted-b.sine)), nil
			}
		}
	}
	return 0, outOfRange("pitch", pitch, "the lowest point would lie off the steel")
}

// iceLine is the flat ice under a runner, in the runner's own directions.
type iceLine struct {
	profile      Profile
	lowest       Millimetre
	sine, cosine float64
}

// above is the distance of the steel at a station from a line parallel to the
// ice through the lowest point.
func (l iceLine) above(station Millimetre) Millimetre {
	rise := l.profile.riseAt(station) - l.profile.riseAt(l.lowest)
	return rise*Millimetre(l.cosine) - (station-l.lowest)*Millimetre(l.sine)
}

// along is the distance of a station from the lowest point, along the ice.
func (l iceLine) along(station Millimetre) Millimetre {
	rise := l.profile.riseAt(station) - l.profile.riseAt(l.lowest)
	return (station-l.lowest)*Millimetre(l.cosine) + rise*Millimetre(l.sine)
}

// meets halves the steel between the lowest point and an end until it has the
// station where the ice, raised by the indentation, leaves it. The steel rises
// all the way, so there is one such station, or the contact runs off the end.
func (l iceLine) meets(inside, end, indentation Millimetre) (station Millimetre, clipped bool) {
	if l.above(end) < indentation {
		return end, true
	}
	for range 200 {
		middle := inside + (end-inside)/2
		if middle == inside || middle == end {
			break
		}
		if l.above(middle) < indentation {
			inside = middle
		} else {
			end = middle
		}
	}
	return end, false
}

// Meaning says in one sentence what the contact is to the skater. That a long
// contact glides and a short one turns is common practice, no source.
func (c Contact) Meaning() string {
	sentence := fmt.Sprintf("%.0f mm of steel in the ice, balanced %s: more steel glides and stands steadier, less turns quicker",
		float64(c.Length), fromMiddle(c.BalancePoint))
	if c.Clipped {
		sentence += "; the contact runs off the end of the steel"
	}
	return sentence + "."
}

// fromMiddle puts a station in words.
func fromMiddle(station Millimetre) string {
	switch whole := math.Round(float64(station)); {
	case whole == 0:
		return "in the middle"
	case whole < 0:
		return fmt.Sprintf("%.0f mm behind the middle", -whole)
	default:
		return fmt.Sprintf("%.0f mm ahead of the middle", whole)
	}
}
