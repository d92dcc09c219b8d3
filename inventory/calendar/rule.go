package calendar

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// rule is how something recurs (RFC 5545, 3.3.10): by the day, the week, the month or
// the year. What recurs by the hour, by a week's number or by a year's day is refused.
type rule struct {
	every      string // DAILY, WEEKLY, MONTHLY or YEARLY
	interval   int
	count      int       // 0: without end
	until      time.Time // zero: without end
	days       []weekday
	months     []int
	monthDays  []int
	positions  []int
	weekStarts time.Weekday
}

// weekday is a day of the week: every one, or the nth in the month or year, from its
// end where n is below zero.
type weekday struct {
	n   int
	day time.Weekday
}

// parseRule reads a rule. An end without a zone is by the clocks of the location.
func parseRule(text string, location *time.Location) (rule, error) {
	r := rule{interval: 1, weekStarts: time.Monday}
	for part := range strings.SplitSeq(strings.ToUpper(strings.TrimSpace(text)), ";") {
		name, value, found := strings.Cut(part, "=")
		if !found {
			return r, fmt.Errorf("%q is no rule", text)
		}
		if err := r.set(name, value, location); err != nil {
			return r, fmt.Errorf("rule %q: %w", text, err)
		}
	}
	if r.every == "" {
		return r, fmt.Errorf("rule %q does not say how often", text)
	}
	return r, nil
}

// set takes one part of a rule.
func (r *rule) set(name, value string, location *time.Location) (err error) {
	switch name {
	case "FREQ":
		return r.setEvery(value)
	case "INTERVAL":
		r.interval, err = positive(value)
	case "COUNT":
		r.count, err = positive(value)
	case "UNTIL":
		r.until, err = parseUntil(value, location)
	case "BYDAY":
		r.days, err = weekdays(value)
	case "BYMONTH":
		r.months, err = numbers(value, 1, 12)
	case "BYMONTHDAY":
		r.monthDays, err = numbers(value, -31, 31)
	case "BYSETPOS":
		r.positions, err = numbers(value, -366, 366)
	case "WKST":
		r.weekStarts, err = dayOfWeek(value)
	default:
		return fmt.Errorf("%s is not followed here", name)
	}
	return err
}

func (r *rule) setEvery(value string) error {
	switch value {
	case "DAILY", "WEEKLY", "MONTHLY", "YEARLY":
		r.every = value
		return nil
	}
	return fmt.Errorf("%s is not followed here", value)
}

func positive(value string) (int, error) {
	number, err := strconv.Atoi(value)
	if err != nil || number < 1 || number > 10_000 {
		return 0, fmt.Errorf("%q is no count", value)
	}
	return number, nil
}

// parseUntil reads an instant, a reading of the clocks, or a day, which is meant whole.
func parseUntil(value string, location *time.Location) (time.Time, error) {
	if at, err := time.Parse(utcLayout, value); err == nil {
		return at, nil
	}
	if at, err := time.ParseInLocation(localLayout, value, location); err == nil {
		return at, nil
	}
	day, err := time.ParseInLocation(dayLayout, value, location)
	if err != nil {
		return day, fmt.Errorf("%q is no end", value)
	}
	return day.AddDate(0, 0, 1).Add(-time.Second), nil
}

// mostInList is more than a list in a rule can tell apart: the days of two years.
const mostInList = 2 * 366

func checkListLength(value string) error {
	if count := strings.Count(value, ",") + 1; count > mostInList {
		return fmt.Errorf("a list of %d is too long", count)
	}
	return nil
}

// numbers reads a list of whole numbers within limits; zero is none of them.
func numbers(value string, least, most int) ([]int, error) {
	var all []int
	if err := checkListLength(value); err != nil {
		return nil, err
	}
	for part := range strings.SplitSeq(value, ",") {
		number, err := strconv.Atoi(part)
		if err != nil || number < least || number > most || number == 0 {
			return nil, fmt.Errorf("%q is not from %d to %d", part, least, most)
		}
		if !slices.Contains(all, number) {
			all = append(all, number)
		}
	}
	return all, nil
}

func weekdays(value string) ([]weekday, error) {
	var all []weekday
	if err := checkListLength(value); err != nil {
		return nil, err
	}
	for part := range strings.SplitSeq(value, ",") {
		if len(part) < 2 {
			return nil, fmt.Errorf("%q is no day", part)
		}
		day, err := dayOfWeek(part[len(part)-2:])
		if err != nil {
			return nil, err
		}
		one := weekday{day: day}
		if count := part[:len(part)-2]; count != "" {
			if one.n, err = strconv.Atoi(count); err != nil || one.n == 0 || one.n < -53 || one.n > 53 {
				return nil, fmt.Errorf("%q is no day", part)
			}
		}
		if !slices.Contains(all, one) {
			all = append(all, one)
		}
	}
	return all, nil
}

func dayOfWeek(text string) (time.Weekday, error) {
	at := strings.Index("SU MO TU WE TH FR SA", text)
	if len(text) != 2 || at < 0 || at%3 != 0 {
		return 0, fmt.Errorf("%q is no day of the week", text)
	}
	return time.Weekday(at / 3), nil
}
