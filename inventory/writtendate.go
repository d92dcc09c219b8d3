package inventory

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// DateOrder says in which order a hand or a list writes the parts of a date.
type DateOrder string

// The orders of dates in digits that can be read in several. What could be a height as
// well is read in the order of none.
const (
	DayFirst   DateOrder = "dm" // 24/11, 24/11/2024
	MonthFirst DateOrder = "md" // 11/24, 11/24/2024
	MonthYear  DateOrder = "my" // 11/24 is November 2024
	YearFirst  DateOrder = "ym" // 24-11, 24-11-28
	heightOnly DateOrder = "mm" // 11.24 is a height
)

// DateOrders are what is known of a hand. Several can be: of two groups of digits, and
// of three.
type DateOrders []DateOrder

// ParseDateOrders reads orders parted by commas; "dmy" and "mdy" are those of three groups.
func ParseDateOrders(text string) (DateOrders, error) {
	var orders DateOrders
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ',' || r == ' ' }) {
		order := DateOrder(word)
		if word == "dmy" || word == "mdy" {
			order = order[:2]
		}
		if !slices.Contains([]DateOrder{DayFirst, MonthFirst, MonthYear, YearFirst, heightOnly}, order) {
			return nil, fmt.Errorf("%q is no order: --dates is dm (day first), md (month first) or my (month and year)", Clip(word))
		}
		orders = append(orders, order)
	}
	return orders, nil
}

// WrittenDate is one way to read a date as hands write it.
type WrittenDate struct {
	When  When
	Order DateOrder // empty: its form alone tells
	Last  bool      // no year is written: it is the last such day or month
}

// Say says the date, and that its year is a guess where it is one.
func (d WrittenDate) Say(zone *time.Location) string {
	if d.Last {
		return d.When.SayDay(zone) + " (the last one: no year is written)"
	}
	return d.When.SayDay(zone)
}

// ParseDate reads when something was as lists and hands have it: as ParseWhen does, or as
// they write dates, with a midnight behind it that spreadsheets add. What can be read in
// several orders is refused with its readings, unless one is known.
func ParseDate(text string, orders DateOrders, now time.Time, zone *time.Location) (When, error) {
	when, asTyped := ParseWhen(text, zone)
	if asTyped == nil {
		return when, nil
	}
	all := writtenDates(midnight.ReplaceAllString(spelledOut(text), ""), now, zone)
	switch read := orders.among(upTo(now, all)); {
	case len(read) == 1:
		return read[0].When, nil
	case len(read) > 1:
		return When{}, RefuseValue(fmt.Sprintf("%q is %s", text, sayDates(read, zone)), sayOrders(read))
	case len(orders.among(all)) > 0:
		return When{}, RefuseValue(fmt.Sprintf("%q is a day still to come", text), "check the year")
	case len(all) > 0:
		return When{}, RefuseValue(fmt.Sprintf("%q is no date in the order that --dates says", text), "mend it, or say another order")
	}
	return When{}, RefuseValue(fmt.Sprintf("%q is no date: %v", text, asTyped), "write it as 2025-11-04, or say the order: --dates dm or --dates md")
}

// sayOrders says which orders decide between some readings.
func sayOrders(read []WrittenDate) string {
	var say []string
	for _, date := range read {
		say = append(say, "--dates "+string(date.Order))
	}
	return "say the order: " + strings.Join(say, " or ")
}

func sayDates(read []WrittenDate, zone *time.Location) string {
	var say []string
	for _, date := range read {
		say = append(say, date.Say(zone))
	}
	return strings.Join(say, " or ")
}

// among are the readings that what is known of a hand leaves, each date once. Who writes
// the day first never writes the month before it.
func (known DateOrders) among(read []WrittenDate) []WrittenDate {
	for _, order := range known {
		if slices.ContainsFunc(read, func(d WrittenDate) bool { return d.Order == order }) {
			read = slices.DeleteFunc(slices.Clone(read), func(d WrittenDate) bool { return d.Order != order })
			continue
		}
		against := map[DateOrder]DateOrder{DayFirst: MonthFirst, MonthFirst: DayFirst}[order]
		read = slices.DeleteFunc(slices.Clone(read), func(d WrittenDate) bool { return d.Order != "" && d.Order == against })
	}
	var once []WrittenDate
	for _, d := range read {
		if !slices.ContainsFunc(once, func(o WrittenDate) bool { return o.When == d.When }) {
			once = append(once, d)
		}
	}
	return once
}

func upTo(now time.Time, read []WrittenDate) []WrittenDate {
	return slices.DeleteFunc(slices.Clone(read), func(d WrittenDate) bool { return d.When.After(now) })
}

var (
	midnight    = regexp.MustCompile(` 0?0:00(:00)?$`)
	spacedDots  = regexp.MustCompile(`\b([0-9]{1,2}\.) ([0-9]{1,2}\.)`)
	ordinalDay  = regexp.MustCompile(`\b([0-9]{1,2})(?:ST|ND|RD|TH)\b`)
	dateGroups  = regexp.MustCompile(`^([0-9]{1,4})([./-])([0-9]{1,4})(?:([./-])([0-9]{1,4})?)?$`)
	dateDigits  = regexp.MustCompile(`^(?:([0-9]{1,2})([0-9]{2})|([0-9]{2})([0-9]{2})([0-9]{2}))$`)
	eightDigits = regexp.MustCompile(`^([0-9]{4})([0-9]{2})([0-9]{2})$`)
	digitsApart = regexp.MustCompile(`^[0-9]{1,2} [0-9]{1,2}(?: [0-9]{2}| [0-9]{4})?$`)
	namedParts  = regexp.MustCompile(`[0-9]+|\p{L}+`)
)

// spelledOut is a text in capitals, with what hands add to a date left out: "24. 11. 24"
// and "1st" are "24.11.24" and "1".
func spelledOut(text string) string {
	text = spacedDots.ReplaceAllString(strings.ToUpper(strings.TrimSpace(text)), "$1$2")
	return ordinalDay.ReplaceAllString(text, "$1")
}

// writtenDates are all ways to read one date in capitals, also of times to come.
func writtenDates(text string, now time.Time, zone *time.Location) []WrittenDate {
	r := dateReader{now: now, zone: zone}
	text = strings.ReplaceAll(text, ". ", ".")
	if digitsApart.MatchString(text) {
		text = strings.ReplaceAll(text, " ", "/")
	}
	if found := dateGroups.FindStringSubmatch(text); found != nil {
		r.groups(found[1], found[3], found[5], found[2], found[4])
	} else if strings.ContainsFunc(text, unicode.IsLetter) {
		r.named(namedParts.FindAllString(text, -1))
	} else if found := dateDigits.FindStringSubmatch(text); found != nil && found[1] != "" && !r.year(text) {
		r.add("", "", found[1], found[2])
	} else if found != nil && found[3] != "" {
		r.three(found[3], found[4], found[5], true)
	} else if found := eightDigits.FindStringSubmatch(text); found != nil {
		r.add("", found[3], found[2], found[1])
		r.three(text[:2], text[2:4], text[4:], false)
	} else if len(text) == 2 {
		r.year(text)
	}
	return r.read
}

// dateReader gathers the ways to read a date.
type dateReader struct {
	now  time.Time
	zone *time.Location
	read []WrittenDate
}

// groups reads two or three groups of digits. A dot behind two tells that the day comes
// first (common practice, no source).
func (r *dateReader) groups(a, b, c, sep, behind string) {
	switch {
	case behind != "" && behind != sep, c == "" && behind != "" && sep != ".", len(c)%2 == 1 && len(a) != 4:
	case c != "" && len(a) == 4:
		r.add("", c, b, a)
	case c != "":
		r.three(a, b, c, sep == "-")
	case behind != "":
		r.add(DayFirst, a, b, "")
	case len(a) == 4 || number(a) > 12 && sep != ".":
		if season, ok := parseSeason(fullYear(a)+"/"+b, r.zone); ok {
			r.read = append(r.read, WrittenDate{When: season})
			return
		}
		fallthrough
	default:
		r.two(a, b, sep)
	}
}

// two reads a day and a month, or a month and a year.
func (r *dateReader) two(a, b, sep string) {
	switch {
	case len(a) == 4:
		r.add("", "", b, a)
		return
	case len(b) == 4:
		r.add("", "", a, b)
		return
	}
	r.add(DayFirst, a, b, "")
	r.add(MonthFirst, b, a, "")
	if len(b) == 2 {
		r.add(MonthYear, "", a, b)
	}
	if sep == "-" && len(a) == 2 {
		r.add(YearFirst, "", b, a)
	}
}

// three reads a day, a month and a year; whether the year can come first in two digits
// the form tells.
func (r *dateReader) three(a, b, c string, yearFirst bool) {
	r.add(DayFirst, a, b, c)
	r.add(MonthFirst, b, a, c)
	if yearFirst && len(a) == 2 && len(c) == 2 {
		r.add(YearFirst, c, b, a)
	}
}

// named reads a date whose month is a word. Two digits alone behind it are the year, if it can be:
// who names the month writes the day before it (common practice, no source).
func (r *dateReader) named(parts []string) {
	at := slices.IndexFunc(parts, func(p string) bool { return monthNamed(p) > 0 })
	if at < 0 || at > 1 || len(parts) > 3 {
		return
	}
	month, before, behind := strconv.Itoa(monthNamed(parts[at])), "", append(parts[at+1:], "")
	if at == 1 {
		before = parts[0]
	}
	switch {
	case len(before) == 4:
		r.add("", behind[0], month, before)
	case len(before) > 2:
	case len(behind) > 2:
		r.add("", behind[0], month, behind[1])
	case before == "" && len(behind[0]) == 1:
		r.add("", behind[0], month, "")
	case behind[0] == "" || len(behind[0])%2 == 0:
		r.add("", before, month, behind[0])
		if before == "" && behind[0] != "" && len(upTo(r.now, r.read)) == 0 {
			r.add("", behind[0], month, "")
		}
	}
}

// year reads a year alone.
func (r *dateReader) year(text string) bool {
	before := len(r.read)
	if len(text)%2 == 0 {
		r.add("", "", "", text)
	}
	return len(r.read) > before
}

// add adds a day, a month (day empty) or a year (month empty) that there is; without a
// year it is the last one.
func (r *dateReader) add(order DateOrder, day, month, year string) {
	if year != "" {
		if when, ok := r.dated(day, month, number(fullYear(year))); ok {
			r.read = append(r.read, WrittenDate{when, order, false})
		}
		return
	}
	const mostBack = 8 // a leap day's year can lie so far back
	for back := range mostBack + 1 {
		if when, ok := r.dated(day, month, r.now.In(r.zone).Year()-back); ok && !when.After(r.now) {
			r.read = append(r.read, WrittenDate{when, order, true})
			return
		}
	}
}

func (r *dateReader) dated(day, month string, year int) (When, bool) {
	if year < LeastYear || year > MostYear {
		return When{}, false
	}
	d, m := max(number(day), 1), max(number(month), 1)
	start := time.Date(year, time.Month(m), d, 0, 0, 0, 0, r.zone)
	is := start.Day() == d && int(start.Month()) == m && (day == "" || number(day) == d) && (month == "" || number(month) == m)
	switch {
	case month == "":
		return Between(start, start.AddDate(1, 0, 0)), is
	case day == "":
		return Between(start, start.AddDate(0, 1, 0)), is
	}
	return Between(start, start.AddDate(0, 0, 1)), is
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
	const least = 3
	for month := time.January; month <= time.December && len(word) >= least; month++ {
		if strings.HasPrefix(strings.ToUpper(month.String()), word) {
			return int(month)
		}
	}
	return -1
}
