package inventory

import (
	"fmt"
	"strconv"
	"strings"

	"steeltally/geometry"
)

// Cut is the shape ground across the steel: a hollow of one radius, or a
// flat-bottomed cut of a flat width and an edge height. The zero Cut is unknown.
type Cut struct {
	Radius     geometry.Millimetre
	FlatWidth  geometry.Millimetre
	EdgeHeight geometry.Millimetre
}

// The hollows that a wheel is dressed to, in millimetres; a number outside of both
// ranges is a slip. Common practice, no source: skaters' are fractions of an inch,
// goalkeepers' flat ones are said in feet.
const (
	leastHollow  geometry.Millimetre = 4
	mostHollow   geometry.Millimetre = 60
	leastFlatter geometry.Millimetre = 2_000
	mostFlatter  geometry.Millimetre = 12_000
	leastFlat    geometry.Millimetre = 1
	mostFlat     geometry.Millimetre = 6 // no steel is wider
)

func isHollow(r geometry.Millimetre) bool {
	return r >= leastHollow && r <= mostHollow || r >= leastFlatter && r <= mostFlatter
}

// ParseCut reads a hollow with its unit ("1/2in", "12.7mm", "28ft") or a
// flat-bottomed cut as width and edge height ("flat 2.3mm 0.04mm").
func ParseCut(text string) (Cut, error) {
	cut, err := readCut(text)
	if err == nil {
		err = cut.Check()
	}
	if err != nil {
		return Cut{}, err
	}
	return cut, nil
}

// Check refuses a cut that no wheel makes.
func (c Cut) Check() error {
	switch {
	case c.FlatWidth == 0 && c.EdgeHeight == 0 && isHollow(c.Radius):
		return nil
	case c.FlatWidth == 0:
		return fmt.Errorf("a hollow of %s is no wheel's; usual are 3/8in to 1in, for goalkeepers up to 30ft", c.Radius)
	case c.Radius == 0 && c.EdgeHeight > 0 && c.EdgeHeight < c.FlatWidth && c.FlatWidth >= leastFlat && c.FlatWidth <= mostFlat:
		return nil
	}
	return fmt.Errorf("a flat of %s with edges of %s is no wheel's; usual are 2.3mm and 0.04mm", c.FlatWidth, c.EdgeHeight)
}

// readCut reads the form of a cut, whatever its size: what is in the record is read
// also where a later version takes other hollows.
func readCut(text string) (Cut, error) {
	flat, isFlat := strings.CutPrefix(strings.TrimSpace(text), "flat ")
	if isFlat {
		return readFlat(text, strings.Fields(flat))
	}
	radius, err := geometry.ParseLength(text)
	if err != nil {
		return Cut{}, fmt.Errorf("hollow %w", err)
	}
	return Cut{Radius: radius}, nil
}

func readFlat(text string, parts []string) (Cut, error) {
	form := fmt.Errorf("%q: a flat-bottomed cut is written as flat width and edge height, such as flat 2.3mm 0.04mm", Clip(text))
	if len(parts) != 2 {
		return Cut{}, form
	}
	width, errWidth := geometry.ParseLength(parts[0])
	height, errHeight := geometry.ParseLength(parts[1])
	if errWidth != nil || errHeight != nil || width == 0 {
		return Cut{}, form
	}
	return Cut{FlatWidth: width, EdgeHeight: height}, nil
}

// Unknown tells whether nothing is known of the cut.
func (c Cut) Unknown() bool { return c == Cut{} }

// String writes the cut as the shop says it: "1/2 in", "28 ft", "2.3 mm flat, 0.04 mm edges".
func (c Cut) String() string {
	switch {
	case c.Unknown():
		return "unknown"
	case c.FlatWidth > 0:
		return geometry.FormatFlatCut(c.FlatWidth, c.EdgeHeight)
	case c.Radius >= geometry.Inch(12).Millimetres():
		return geometry.FormatProfile(c.Radius)
	}
	return geometry.FormatHollow(c.Radius)
}

// Short is the cut as a tag says it: a flat-bottomed one as its two numbers, "2.3/0.04".
func (c Cut) Short() string {
	if c.FlatWidth > 0 {
		return fmt.Sprintf("%v/%v", float64(c.FlatWidth), float64(c.EdgeHeight))
	}
	return c.String()
}

// MarshalText writes what ParseCut reads, without loss.
func (c Cut) MarshalText() ([]byte, error) {
	switch {
	case c.Unknown():
		return nil, nil
	case c.FlatWidth > 0:
		return []byte("flat " + exactly(c.FlatWidth) + " " + exactly(c.EdgeHeight)), nil
	}
	return []byte(exactly(c.Radius)), nil
}

// exactly writes a length so that it is read as the same number.
func exactly(l geometry.Millimetre) string {
	return strconv.FormatFloat(float64(l), 'f', -1, 64) + "mm"
}

// UnmarshalText reads what MarshalText writes.
func (c *Cut) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Cut{}
		return nil
	}
	read, err := readCut(string(text))
	*c = read
	return err
}

// Profile is the rocker along the steel: one radius, or several from toe to heel.
type Profile []geometry.Millimetre

// The radii that a profile can have. Common practice, no source: 9–13 ft for
// skaters, up to 30 ft for goalkeepers, and short toe radii in combined profiles.
const (
	LeastProfile geometry.Millimetre = 900
	MostProfile  geometry.Millimetre = 15_000
)

// ParseProfile reads "11ft", "3.35m", or several radii from toe to heel: "9ft+13ft".
func ParseProfile(text string) (Profile, error) {
	var profile Profile
	for part := range strings.SplitSeq(text, "+") {
		radius, err := geometry.ParseLength(part)
		if err != nil {
			return nil, fmt.Errorf("profile %w", err)
		}
		if radius < LeastProfile || radius > MostProfile {
			return nil, fmt.Errorf("a profile of %s is no runner's; usual are 9ft to 13ft", Clip(part))
		}
		profile = append(profile, radius)
	}
	return profile, nil
}

// String writes the profile as the shop says it: "11 ft", "9 ft + 13 ft".
func (p Profile) String() string {
	words := make([]string, len(p))
	for i, radius := range p {
		words[i] = geometry.FormatProfile(radius)
	}
	return strings.Join(words, " + ")
}

// Equal tells whether two profiles are the same to 5 mm, finer than any template.
func (p Profile) Equal(other Profile) bool {
	if len(p) != len(other) {
		return false
	}
	for i := range p {
		if d := p[i] - other[i]; d > 5 || d < -5 {
			return false
		}
	}
	return true
}
