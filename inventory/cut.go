package inventory

import (
	"fmt"
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
)

func isHollow(r geometry.Millimetre) bool {
	return r >= leastHollow && r <= mostHollow || r >= leastFlatter && r <= mostFlatter
}

// ParseCut reads a hollow with its unit ("1/2in", "12.7mm", "28ft") or a
// flat-bottomed cut as width and edge height ("flat 2.3mm 0.04mm").
func ParseCut(text string) (Cut, error) {
	flat, isFlat := strings.CutPrefix(strings.TrimSpace(text), "flat ")
	if !isFlat {
		radius, err := geometry.ParseLength(text)
		if err != nil {
			return Cut{}, fmt.Errorf("hollow %w", err)
		}
		if !isHollow(radius) {
			return Cut{}, fmt.Errorf("a hollow of %s is no wheel's; usual are 3/8in to 1in, for goalkeepers up to 30ft", clip(text))
		}
		return Cut{Radius: radius}, nil
	}
	return parseFlat(text, strings.Fields(flat))
}

func parseFlat(text string, parts []string) (Cut, error) {
	form := fmt.Errorf("%q: a flat-bottomed cut is written as flat width and edge height, such as flat 2.3mm 0.04mm", clip(text))
	if len(parts) != 2 {
		return Cut{}, form
	}
	width, errWidth := geometry.ParseLength(parts[0])
	height, errHeight := geometry.ParseLength(parts[1])
	if errWidth != nil || errHeight != nil || width <= 0 || height <= 0 || height >= width {
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

// MarshalText writes what ParseCut reads, without loss.
func (c Cut) MarshalText() ([]byte, error) {
	switch {
	case c.Unknown():
		return nil, nil
	case c.FlatWidth > 0:
		return fmt.Appendf(nil, "flat %vmm %vmm", float64(c.FlatWidth), float64(c.EdgeHeight)), nil
	}
	return fmt.Appendf(nil, "%vmm", float64(c.Radius)), nil
}

// UnmarshalText reads what MarshalText writes.
func (c *Cut) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Cut{}
		return nil
	}
	read, err := ParseCut(string(text))
	*c = read
	return err
}
