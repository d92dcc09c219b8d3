package inventory

import (
	"regexp"
	"strings"
	"time"
)

// DateOrder says in which order a list writes the day and the month.
type DateOrder string

// The orders. Without one, a date that can be read both ways is none.
const (
	DayFirst   DateOrder = "dmy"
	MonthFirst DateOrder = "mdy"
)

var dayMonth = regexp.MustCompile(`^([0-9]{1,2})[./-] ?([0-9]{1,2})[./-] ?([0-9]{2}|[0-9]{4})(?: 0?0:00(?::00)?)?$`)

// ParseListed reads a time as a list has it: as ParseWhen does, and a date in three
// groups of digits, with a midnight behind it that spreadsheets add.
func ParseListed(text string, order DateOrder, zone *time.Location) (When, error) {
	groups := dayMonth.FindStringSubmatch(strings.TrimSpace(text))
	if groups == nil {
		return ParseWhen(text, zone)
	}
	year := fullYear(groups[3])
	dayFirst, isDayFirst := datedBy(groups[1], number(groups[2]), year, zone)
	monthFirst, isMonthFirst := datedBy(groups[2], number(groups[1]), year, zone)
	when, is := dayFirst, isDayFirst
	switch {
	case order == DayFirst:
	case order == MonthFirst:
		when, is = monthFirst, isMonthFirst
	case len(groups[3]) == 2:
		return When{}, RefuseValue("say the order: --dates dmy or --dates mdy", "%q can be read with the day, the month or the year first", text)
	case isDayFirst && isMonthFirst && dayFirst != monthFirst:
		return When{}, RefuseValue("say the order: --dates dmy or --dates mdy", "%q is %s or %s", text, dayFirst.Say(zone), monthFirst.Say(zone))
	case isMonthFirst:
		when, is = monthFirst, true
	}
	if !is || !when.InYears(zone) {
		return When{}, RefuseValue("write it as 2025-11-04, or say the order: --dates dmy or --dates mdy", "%q is no date", text)
	}
	return when, nil
}
