package inventory

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Inscription is what a marker pen wrote on a removed runner, and what can be made of it.
type Inscription struct {
	Text    string
	Sweater int  // 0: none
	Side    Side // empty: none
	CameOff When // as vague as it stands there
}

// ReadInscription makes out of an inscription what it can: the sweater number, L or R,
// and a date. People write "17 L 11/24", "17L1124", "R 8 nov 23", "31 2024" or "17 L".
// A date that could be read with day and month either way is as vague as that; one
// still to come is none. Common practice, no source.
func ReadInscription(text string, now time.Time, zone *time.Location) Inscription {
	read := Inscription{Text: strings.TrimSpace(text)}
	rest := read.side(strings.ToUpper(read.Text))
	rest = read.sweater(rest)
	if read.Side == "" {
		rest = read.side(rest)
	}
	read.CameOff = read.date(strings.Fields(rest), now, zone)
	return read
}

// mostDateWords is how many words a date is written in: "28 NOV 24".
const mostDateWords = 3

// date finds the first date among words, the longest that can be made from there. Where
// nothing else could be read, digits alone are no date.
func (i *Inscription) date(words []string, now time.Time, zone *time.Location) When {
	for first := range words {
		for last := min(first+mostDateWords, len(words)); last > first; last-- {
			candidate := strings.Join(words[first:last], " ")
			if i.Sweater == 0 && i.Side == "" && !monthLetter.MatchString(candidate) {
				continue
			}
			if when, ok := markerDate(candidate, zone); ok && !when.After(now) {
				return when
			}
		}
	}
	return When{}
}

var (
	sideAtStart    = regexp.MustCompile(`^[\s./-]*(LEFT|RIGHT|L|R)([^A-Z]|$)`)
	sweaterAtStart = regexp.MustCompile(`^[\s#.-]*([0-9]{1,2})([^0-9]|$)`)
)

// side takes a side off the start and gives the rest.
func (i *Inscription) side(text string) string {
	found := sideAtStart.FindStringSubmatchIndex(text)
	if found == nil {
		return text
	}
	i.Side = Left
	if text[found[2]] == 'R' {
		i.Side = Right
	}
	return text[found[3]:]
}

// sweater takes a sweater number off the start and gives the rest.
func (i *Inscription) sweater(text string) string {
	found := sweaterAtStart.FindStringSubmatchIndex(text)
	if found == nil {
		return text
	}
	i.Sweater, _ = strconv.Atoi(text[found[2]:found[3]])
	return text[found[3]:]
}

var (
	dateGroups  = regexp.MustCompile(`^([0-9]{1,4})[./-]([0-9]{1,4})(?:[./-]([0-9]{2,4}))?$`)
	dateDigits  = regexp.MustCompile(`^(?:([0-9]{2}))?([0-9]{1,2})([0-9]{2})$`)
	monthLetter = regexp.MustCompile(`^(?:([0-9]{1,2})[ .-]?)?([A-Z]{3,9})[ .-]?([0-9]{2}|[0-9]{4})$`)
	yearAlone   = regexp.MustCompile(`^(20[0-9]{2}|[0-9]{2})$`)
)

// markerDate reads a date as markers write it.
func markerDate(text string, zone *time.Location) (When, bool) {
	if found := monthLetter.FindStringSubmatch(text); found != nil {
		return datedBy(found[1], monthNamed(found[2]), found[3], zone)
	}
	if yearAlone.MatchString(text) {
		return datedBy("", 0, text, zone)
	}
	if found := dateGroups.FindStringSubmatch(text); found != nil {
		return groupedDate(found[1], found[2], found[3], zone)
	}
	if found := dateDigits.FindStringSubmatch(text); found != nil {
		if found[1] == "" {
			return datedBy("", number(found[2]), found[3], zone)
		}
		return groupedDate(found[1], found[2], found[3], zone)
	}
	return When{}, false
}

// groupedDate reads two or three groups of digits.
func groupedDate(a, b, c string, zone *time.Location) (When, bool) {
	switch {
	case c == "" && number(a) > 12:
		return parseSeason(fullYear(a)+"/"+b, zone)
	case c == "":
		return datedBy("", number(a), b, zone)
	case len(a) == 4:
		return datedBy(c, number(b), a, zone)
	}
	dayFirst, isDayFirst := datedBy(a, number(b), c, zone)
	monthFirst, isMonthFirst := datedBy(b, number(a), c, zone)
	switch {
	case isDayFirst && isMonthFirst && dayFirst.Start.Before(monthFirst.Start):
		return When{dayFirst.Start, monthFirst.End}, true
	case isDayFirst && isMonthFirst:
		return When{monthFirst.Start, dayFirst.End}, true
	case isDayFirst:
		return dayFirst, true
	}
	return monthFirst, isMonthFirst
}

// datedBy is a day, a month (day empty) or a year (month 0).
func datedBy(day string, month int, year string, zone *time.Location) (When, bool) {
	y := number(fullYear(year))
	if y < 1990 || month < 0 || month > 12 {
		return When{}, false
	}
	if month == 0 {
		start := time.Date(y, 1, 1, 0, 0, 0, 0, zone)
		return Between(start, start.AddDate(1, 0, 0)), day == ""
	}
	if day == "" {
		start := time.Date(y, time.Month(month), 1, 0, 0, 0, 0, zone)
		return Between(start, start.AddDate(0, 1, 0)), true
	}
	start := time.Date(y, time.Month(month), number(day), 0, 0, 0, 0, zone)
	return Between(start, start.AddDate(0, 0, 1)), start.Day() == number(day) && int(start.Month()) == month
}

// fullYear writes 24 as 2024.
func fullYear(year string) string {
	if len(year) == 2 {
		return "20" + year
	}
	return year
}

func number(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return -1
	}
	return n
}

// monthNamed is the month whose English name begins so, or -1.
func monthNamed(word string) int {
	for month := time.January; month <= time.December; month++ {
		if strings.HasPrefix(strings.ToUpper(month.String()), word) {
			return int(month)
		}
	}
	return -1
}
