package calendar

import (
	"fmt"
	"strings"
)

// mostNested is deeper than a calendar nests: the calendar, a time zone, its summer time.
const mostNested = 8

// checkNesting refuses what nests deeper than any calendar does, before it is followed.
// A line that begins with a blank goes on with the one before.
func checkNesting(text string) error {
	unfolded := strings.NewReplacer("\r\n ", "", "\r\n\t", "", "\n ", "", "\n\t", "").Replace(text)
	depth := 0
	for line := range strings.Lines(unfolded) {
		switch name := strings.ToUpper(line[:min(len(line), len("BEGIN"))]); {
		case name == "BEGIN":
			depth++
		case strings.HasPrefix(name, "END"):
			depth--
		}
		if depth > mostNested {
			return fmt.Errorf("this is no iCalendar file: it nests deeper than %d", mostNested)
		}
	}
	return nil
}
