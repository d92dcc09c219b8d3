package desk

import (
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
)

// sayTagDate writes a day with its month in letters, since 11/12 is read two ways. What
// is vaguer than a year's part is written short, so that it fits on a tag: "2023/24"
// for a season, "2024" for a part of a year.
func sayTagDate(when inventory.When, zone *time.Location) string {
	if when.Unknown() {
		return "NO DATE"
	}
	said := when.SayDay(zone)
	if !strings.Contains(said, " to ") {
		return strings.ToUpper(said)
	}
	first, last := when.Start.In(zone), when.End.Add(-time.Second).In(zone)
	switch {
	case first.Year() == last.Year() && first.Month() == last.Month():
		return strings.ToUpper(first.Format("Jan 2006"))
	case first.Year() == last.Year():
		return first.Format("2006")
	}
	return fmt.Sprintf("%d/%02d", first.Year(), last.Year()%100)
}
