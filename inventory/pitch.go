package inventory

import (
	"fmt"

	"steeltally/geometry"
)

// SayPitch is a pitch (heel minus toe) in words and in mm: "forward 1.50 mm". A higher
// heel leans the skater forward.
func SayPitch(pitch geometry.Millimetre) string {
	switch {
	case pitch > 0:
		return "pitch forward " + pitch.String()
	case pitch < 0:
		return "pitch back " + (-pitch).String()
	}
	return fmt.Sprintf("pitch neutral %s", pitch)
}
