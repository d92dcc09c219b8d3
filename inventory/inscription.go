package inventory

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"steeltally/geometry"
)

// Inscription is what a marker pen wrote on a removed runner, and one way to read it.
type Inscription struct {
	Text    string
	Sweater int    // 0: none
	Side    Side   // empty: none
	Heights string // as they stand there, in mm; a reading of the caliper they are not
	WrittenDate
}

// ReadInscription reads an inscription as markers write it: the sweater as 17, #38, No 9
// or G30, L or R, a date, strokes and heights, in any order: "17 L 11/24", "17l1124",
// "LH 9 24.11.", "19 Feb 11 9 R". It gives all ways in which everything there has a
// meaning; what has none is refused. A number behind a word is the
// word's ("bin 4"); what stands in brackets is not read. Common practice, no source.
func ReadInscription(text string, hand DateOrders, now time.Time, zone *time.Location) ([]Inscription, error) {
	plain := Inscription{Text: strings.TrimSpace(text)}
	if utf8.RuneCountInString(text) > mostMarks {
		return []Inscription{plain}, nil // it is refused as too long
	}
	r := inscriptionReader{marks: marksOf(text), hand: hand, now: now, zone: zone}
	r.read(0, plain, false)
	const hint = "type it as it is meant, such as 17 L 24 Nov 2024; what is not to be read goes in brackets: 17 L [31/31]"
	switch {
	case r.ahead != "":
		return nil, RefuseValue(fmt.Sprintf("%q can't be read: %s is a day still to come", Clip(plain.Text), r.ahead), hint)
	case len(r.ways) == 0:
		return nil, RefuseValue(fmt.Sprintf("%q can't be read: %s", Clip(plain.Text), r.why), hint)
	case len(r.ways) > MostWays:
		return nil, RefuseValue(fmt.Sprintf("%q can be read in %d ways", Clip(plain.Text), len(r.ways)), hint)
	}
	return r.ways, nil
}

// MostWays is in how many ways an inscription may be read, so that one can be chosen.
const MostWays = 6

// mostMarks is longer than anything on a runner.
const mostMarks = 200

// mark is a run of an inscription's characters that belong together.
type mark struct {
	text  string
	glued bool // to the one before
}

var (
	bracketed = regexp.MustCompile(`\[[^\]]*\]`)
	markRuns  = regexp.MustCompile(`[0-9]+(?:[./-][0-9]+)+\.?|[0-9]+(?:,[0-9]+)+|[0-9]+|\p{L}+|[/|]+|#|№`)
	decimal   = regexp.MustCompile(`^[0-9]{1,2}[.,][0-9]{1,2}$`)
	likeDate  = regexp.MustCompile(`\.[0-9]{2}$`)
	strokes   = regexp.MustCompile(`^(?:[/|]+|I+)$`)
	sweaterIs = regexp.MustCompile(`^(?:#|№|N|NO|NR|NUMBER|G|GK)$`)
)

// marksOf parts an inscription. One stroke between two marks that touch it parts them.
func marksOf(text string) []mark {
	text = spelledOut(bracketed.ReplaceAllString(text, " "))
	var marks []mark
	end := 0
	for _, at := range markRuns.FindAllStringIndex(text, -1) {
		run, glued := text[at[0]:at[1]], at[0] == end && at[0] > 0
		touches := glued && at[1] < len(text) && text[at[1]] != ' '
		if len(run) > 1 || !strokes.MatchString(run) || !touches {
			marks = append(marks, mark{run, glued})
		}
		end = at[1]
	}
	return marks
}

func (m mark) digits(least, most int) bool {
	return len(m.text) >= least && len(m.text) <= most && allDigits(m.text)
}

func (m mark) side() Side {
	switch m.text {
	case "L", "LH", "LEFT":
		return Left
	case "R", "RH", "RIGHT":
		return Right
	}
	return ""
}

// isWord tells whether a mark is a word that means nothing here.
func (m mark) isWord() bool {
	first, _ := utf8.DecodeRuneInString(m.text)
	return !strings.ContainsRune("0123456789/|", first) && monthNamed(m.text) < 0
}

// inscriptionReader tries all ways, mark by mark.
type inscriptionReader struct {
	marks []mark
	hand  DateOrders
	now   time.Time
	zone  *time.Location
	ways  []Inscription
	why   string // not more was read
	until int
	ahead string // a date in several marks that is still to come: its parts are nothing else
}

// read reads on from a mark. A weak date is one that may be another number: it counts
// beside a sweater only.
func (r *inscriptionReader) read(at int, so Inscription, weak bool) {
	if at == len(r.marks) {
		if weak && so.Sweater == 0 {
			r.stop(at, "its digits alone may be anything")
		} else if !slices.Contains(r.ways, so) {
			r.ways = append(r.ways, so)
		}
		return
	}
	m := r.marks[at]
	switch side := m.side(); {
	case strokes.MatchString(m.text):
		r.read(at+1, so, weak)
	case side != "" && so.Side == side.Other():
		r.stop(at, "it says left and right")
	case side != "":
		so.Side = side
		r.read(at+1, so, weak)
	case sweaterIs.MatchString(m.text) && r.at(at+1).digits(1, 9):
		r.sweater(at+1, so, weak)
	case m.isWord():
		r.word(at, so, weak)
	case r.surely(at):
		r.sweater(at, so, weak)
	default:
		r.number(at, so, weak)
	}
}

func (r *inscriptionReader) at(at int) mark {
	if at < 0 || at >= len(r.marks) {
		return mark{}
	}
	return r.marks[at]
}

// stop notes why a way ends; that which goes farthest is told.
func (r *inscriptionReader) stop(at int, format string, args ...any) {
	if r.why == "" || at > r.until {
		r.why, r.until = fmt.Sprintf(format, args...), at
	}
}

// word leaves a word out, with the number behind it. With a side behind that, or where
// there are others, the number may be the sweater as well.
func (r *inscriptionReader) word(at int, so Inscription, weak bool) {
	number, behind := r.at(at+1), r.at(at+2)
	theirs := number.digits(1, mostMarks) && (len(number.text) < 4 || len(writtenDates(number.text, r.now, r.zone)) == 0) && monthNamed(behind.text) < 0
	if theirs {
		r.read(at+2, so, weak)
	}
	others := slices.ContainsFunc(slices.Delete(slices.Clone(r.marks), at, min(at+2, len(r.marks))), func(m mark) bool { return m.digits(1, 2) })
	if !theirs || behind.side() != "" || others {
		r.read(at+1, so, weak)
	}
}

// surely tells whether a number is a sweater because it touches the side: 17L, R8. What
// stands behind a month may be its year all the same, and in 17R24 the 24 is none.
func (r *inscriptionReader) surely(at int) bool {
	m, before, behind := r.at(at), r.at(at-1), r.at(at+1)
	if !m.digits(1, 2) || monthNamed(before.text) > 0 {
		return false
	}
	first := !(r.at(at-2).digits(1, 2) && before.glued)
	return behind.side() != "" && behind.glued || before.side() != "" && m.glued && first
}

func (r *inscriptionReader) sweater(at int, so Inscription, weak bool) {
	switch n := number(r.marks[at].text); {
	case so.Sweater != 0:
		r.stop(at, "two sweaters, %d and %d, or a number that means nothing", so.Sweater, n)
	case n < 1 || n > MostSweater:
		r.stop(at, "sweaters go from 1 to %d, not %d", MostSweater, n)
	default:
		so.Sweater = n
		r.read(at+1, so, weak)
	}
}

// number reads what begins with a digit, or a month: a height, a date, a sweater.
func (r *inscriptionReader) number(at int, so Inscription, weak bool) {
	m, behind := r.marks[at], r.at(at+1)
	high := so
	high.Heights = strings.TrimSpace(so.Heights + " " + m.text)
	if m.isHeight() && behind.text == "MM" {
		r.read(at+2, high, weak)
		return
	}
	if decimal.MatchString(m.text) && m.isHeight() && !likeDate.MatchString(m.text) {
		r.read(at+1, high, weak)
		return
	}
	r.dates(at, so, weak)
	if m.digits(1, 2) {
		r.sweater(at, so, weak)
	}
	r.stop(at, "%q is no date that has been, and no sweater", m.text)
}

// isHeight tells whether a mark can be a height in mm. Where it is not said, what has one
// decimal or a comma is one, and what has two may be a date as well.
func (m mark) isHeight() bool {
	high, err := geometry.ParseHeight(strings.Replace(m.text, ",", ".", 1))
	return err == nil && CheckHeight("it", high) == nil
}

// mostDateMarks is in how many marks a date is written: 28 NOV 24.
const mostDateMarks = 3

// dates reads a date that begins at a mark, in all ways in which one can.
func (r *inscriptionReader) dates(at int, so Inscription, weak bool) {
	text := ""
	for end := at; end < min(at+mostDateMarks, len(r.marks)) && !r.marks[end].isWord(); end++ {
		m := r.marks[end]
		if end > at && (r.surely(end) || m.digits(2, 2) && strings.HasSuffix(text, ".") && r.at(end+1).side() != "") {
			return // 24.11. 17 L
		}
		text = strings.TrimSpace(text + " " + m.text)
		if end == at && monthNamed(m.text) > 0 && r.at(end+1).digits(1, 4) && !r.touchesSide(end+1) {
			continue // the number behind a month is its day or year
		}
		for _, date := range r.hand.among(r.written(text, m.isHeight() && end == at)) {
			dated := so
			switch {
			case date.Order == heightOnly:
				dated.Heights, dated.Order = strings.TrimSpace(so.Heights+" "+m.text), heightOnly
			case !so.When.Unknown():
				r.stop(at, "it says two dates")
				continue
			default:
				dated.WrittenDate = date
			}
			r.read(end+1, dated, weak || end == at && m.digits(2, 4) && date.When.Say(r.zone) != m.text)
		}
	}
}

// written are the dates that a text can be, and that it is a height instead.
func (r *inscriptionReader) written(text string, height bool) []WrittenDate {
	all := writtenDates(text, r.now, r.zone)
	read := upTo(r.now, all)
	if len(all) > 0 && len(read) == 0 && strings.Contains(text, " ") {
		r.ahead = text
	}
	if height && decimal.MatchString(text) {
		read = append(read, WrittenDate{Order: heightOnly})
	}
	return read
}

func (r *inscriptionReader) touchesSide(at int) bool {
	return r.at(at+1).side() != "" && r.at(at+1).glued
}

// Strokes are the strokes of an inscription as they stand, and how many pairs before they
// stand for: a stroke / is the pair before, two are the one before that, and others only
// count (0). Common practice, no source.
func Strokes(text string) (written string, before int) {
	var runs []string
	for _, m := range marksOf(text) {
		if strokes.MatchString(m.text) {
			runs = append(runs, m.text)
		}
	}
	written = strings.Join(runs, " ")
	if !strings.Contains(written, "I") {
		before = len(strings.ReplaceAll(written, " ", ""))
	}
	return written, before
}

// SayStrokes says what strokes an inscription has; empty where it has none.
func SayStrokes(text string) string {
	switch written, before := Strokes(text); {
	case written == "":
		return ""
	case before == 0:
		return fmt.Sprintf("strokes %s (%d)", written, strings.Count(written, "I"))
	case before == 1:
		return "stroke " + written + ": the pair before"
	default:
		return fmt.Sprintf("strokes %s: %d pairs before", written, before)
	}
}
