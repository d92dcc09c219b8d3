package inventory

import (
	"fmt"
	"strings"

	"steeltally/geometry"
)

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
