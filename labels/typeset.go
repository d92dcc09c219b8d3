package labels

import (
	"errors"
	"strings"

	"steeltally/geometry"
	"steeltally/labels/lettering"
	"steeltally/templates"
)

// setting is the task of fitting a text into a box.
type setting struct {
	face          *lettering.Face
	width, height geometry.Dot
	most, least   geometry.Dot // em
	fit           templates.Fit
}

// typeset is a text in lines that fit.
type typeset struct {
	face  *lettering.Face
	em    geometry.Dot
	lines []setLine
	cut   bool
}

// setLine is one line with its ink bounds, from the pen's start and the baseline.
type setLine struct {
	text         string
	left, right  geometry.Dot
	above, below geometry.Dot
}

// width is the width of the line's ink.
func (l setLine) width() geometry.Dot { return l.right - l.left }

// errTooLong says that a text does not fit even at its least height.
var errTooLong = errors.New("is too long: it does not fit")

// set finds the largest em at which the text fits.
func (s setting) set(text string) (typeset, error) {
	least := s.least
	if s.fit == templates.Refuse {
		least = s.most
	}
	for em := s.most; em >= least; em-- {
		if t, ok := s.at(em, text); ok {
			return t, nil
		}
	}
	if s.fit == templates.Cut {
		return s.shorten(text)
	}
	return typeset{}, errTooLong
}

// shorten drops letters from the end until the rest fits with a mark behind it.
func (s setting) shorten(text string) (typeset, error) {
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		if t, ok := s.at(s.least, strings.TrimRight(string(letters[:n]), " \n")+lettering.Ellipsis); ok {
			t.cut = true
			return t, nil
		}
	}
	return typeset{}, errTooLong
}

// at sets the text at an em and tells whether it fits.
func (s setting) at(em geometry.Dot, text string) (typeset, bool) {
	t := typeset{face: s.face, em: em}
	for _, line := range s.breakLines(em, text) {
		set := s.line(em, line)
		if set.width() > s.width {
			return t, false
		}
		t.lines = append(t.lines, set)
	}
	return t, t.above()+t.capitals()+t.below() <= s.height
}

// breakLines is the text's lines; where the rule allows, broken at blanks to fit.
func (s setting) breakLines(em geometry.Dot, text string) []string {
	if s.fit != templates.Wrap && s.fit != templates.Cut {
		return []string{strings.Join(strings.Fields(text), " ")}
	}
	return s.face.Break(text, int(s.width)*lettering.Em/int(em))
}

// line measures a line at an em, rounded outwards to whole dots.
func (s setting) line(em geometry.Dot, text string) setLine {
	e := s.face.Measure(text)
	return setLine{
		text: text,
		left: scaleDown(e.Left, em), right: scaleUp(e.Right, em),
		above: scaleUp(e.Above, em), below: scaleUp(e.Below, em),
	}
}

// scaleUp turns thousandths of an em into dots, rounded up.
func scaleUp(units int, em geometry.Dot) geometry.Dot { return -scaleDown(-units, em) }

// scaleDown turns thousandths of an em into dots, rounded down.
func scaleDown(units int, em geometry.Dot) geometry.Dot {
	product := geometry.Dot(units) * em
	if product < 0 {
		return -((-product + lettering.Em - 1) / lettering.Em)
	}
	return product / lettering.Em
}

// linePitch is the distance of two baselines in thousandths of an em.
const linePitch = 1060

// pitch is the distance of two baselines.
func (t typeset) pitch() geometry.Dot { return scaleUp(linePitch, t.em) }

// capital is the height of the capitals.
func (t typeset) capital() geometry.Dot { return scaleDown(t.face.CapHeight, t.em) }

// capitals is the height from the top of the first line's capitals to the last
// baseline.
func (t typeset) capitals() geometry.Dot {
	return t.capital() + geometry.Dot(len(t.lines)-1)*t.pitch()
}

// above is how far the first line's ink stands above its capitals.
func (t typeset) above() geometry.Dot { return max(t.lines[0].above-t.capital(), 0) }

// below is how far the last line's ink hangs below its baseline.
func (t typeset) below() geometry.Dot { return max(t.lines[len(t.lines)-1].below, 0) }

// text is all lines as one.
func (t typeset) text() string {
	var lines []string
	for _, line := range t.lines {
		lines = append(lines, line.text)
	}
	return strings.Join(lines, " ")
}
