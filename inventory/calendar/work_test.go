package calendar

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// calendarOf is a file with some lines in it.
func calendarOf(lines ...string) string {
	return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:VCALENDAR\r\n"
}

func eventOf(uid string, lines ...string) string {
	return "BEGIN:VEVENT\r\nUID:" + uid + "\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:VEVENT"
}

// many are lines, one for each number.
func many(count int, line func(i int) string) []string {
	lines := make([]string, count)
	for i := range lines {
		lines[i] = line(i)
	}
	return lines
}

// Files that ask for far more work than a season has are refused as a whole, whatever
// they ask it by; the work is counted, so that no clock is needed to tell.
func TestFilesThatAskForTooMuch(t *testing.T) {
	never := "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30"
	zone := "BEGIN:VTIMEZONE\r\nTZID:Far\r\nBEGIN:STANDARD\r\nDTSTART:00010101T000000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\n" +
		strings.Join(many(300, func(int) string { return never }), "\r\n") + "\r\nEND:STANDARD\r\nEND:VTIMEZONE"
	for name, lines := range map[string][]string{
		"rules that never come": many(500, func(i int) string {
			return eventOf(fmt.Sprint(i), "DTSTART:00010101T000000Z", "RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30")
		}),
		"many rules in one entry": {eventOf("a", append(many(2000, func(int) string { return never }), "DTSTART:00010101T000000Z")...)},
		"rules of long lists": many(100, func(i int) string {
			return eventOf(fmt.Sprint(i), "DTSTART:00010101T000000Z", "RRULE:FREQ=DAILY;BYMONTHDAY="+strings.Join(many(31, func(i int) string { return fmt.Sprint(i + 1) }), ",")+";BYSETPOS=366")
		}),
		"a zone of long ago": {zone, eventOf("a", "DTSTART;TZID=Far:20251206T180000")},
		"a zone far ahead":   {zone, eventOf("a", "DTSTART;TZID=Far:99991206T180000")},
		"dates without end": {eventOf("a", "DTSTART:20251206T180000Z", "RDATE:"+strings.Join(many(100_000, func(i int) string {
			return time.Date(2025, 1, 1, 0, i, 0, 0, time.UTC).Format(utcLayout)
		}), ","))},
		"more entries than a season has": many(mostInstances+1, func(i int) string { return eventOf(fmt.Sprint(i), "DTSTART:20251206T180000Z") }),
	} {
		if entries, _, err := Read(calendarOf(lines...), time.UTC, horizon); err == nil {
			t.Errorf("%s: %d entries were read", name, len(entries))
		}
	}
}

// What a club's calendar can have is far from the bound.
func TestALargeSeasonIsNotTooMuch(t *testing.T) {
	zone := "BEGIN:VTIMEZONE\r\nTZID:Harbour\r\nBEGIN:STANDARD\r\nDTSTART:16010101T030000\r\nTZOFFSETFROM:+0200\r\nTZOFFSETTO:+0100\r\nRRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10\r\nEND:STANDARD\r\n" +
		"BEGIN:DAYLIGHT\r\nDTSTART:16010101T020000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\nRRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=3\r\nEND:DAYLIGHT\r\nEND:VTIMEZONE"
	lines := append([]string{zone}, many(20, func(i int) string {
		return eventOf(fmt.Sprint("weekly", i), "DTSTART;TZID=Harbour:20200902T100000", "RRULE:FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR;UNTIL=20200930T000000Z", "EXDATE;TZID=Harbour:20200907T100000")
	})...)
	lines = append(lines, many(1000, func(i int) string {
		return eventOf(fmt.Sprint("game", i), fmt.Sprintf("DTSTART;TZID=Harbour:%d1206T180000", 2015+i%20))
	})...)
	entries, skipped, err := Read(calendarOf(lines...), time.UTC, horizon)
	if err != nil || len(skipped) != 0 || len(entries) != 1000+20*19 {
		t.Errorf("%d entries, skipped %v, %v", len(entries), skipped, err)
	}
}

func TestCalendarsThatNest(t *testing.T) {
	for name, text := range map[string]string{
		"deep":   "BEGIN:VCALENDAR\n" + strings.Repeat("BEGIN:X\n", 1_000_000),
		"folded": "BEGIN:VCALENDAR\n" + strings.Repeat("BEG\n IN:X\n", 1000),
		"small":  "BEGIN:VCALENDAR\n" + strings.Repeat("begin;a=b:X\n", 1000),
	} {
		if _, _, err := Read(text, time.UTC, horizon); err == nil || !strings.Contains(err.Error(), "nests deeper") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The same UID twice is named, and never becomes two entries that the next file can't
// tell apart.
func TestTheSameUIDTwice(t *testing.T) {
	game := func(uid, start, sequence, summary string) string {
		return eventOf(uid, "DTSTART:"+start, "SEQUENCE:"+sequence, "SUMMARY:"+summary)
	}
	const early, late = "20251206T180000Z", "20251207T180000Z"
	for name, c := range map[string]struct {
		lines   []string
		starts  string
		reasons []string
	}{
		"changed later": {[]string{game("a", early, "0", "x"), game("a", late, "2", "x"), game("a", early, "1", "x")}, late, []string{"changed later", "changed later"}},
		"the same":      {[]string{game("a", early, "0", "x"), game("a", early, "0", "x")}, early, []string{"twice under one UID"}},
		"two games":     {[]string{game("a", early, "0", "x"), game("a", late, "0", "y")}, "", []string{"could not be told", "could not be told"}},
		"two games, changed since": {[]string{game("a", early, "0", "x"), game("a", late, "0", "y"), game("a", late, "1", "y")}, late,
			[]string{"changed later", "changed later"}},
		"one instance": {[]string{
			eventOf("a", "DTSTART:"+early, "RRULE:FREQ=DAILY;COUNT=1"),
			eventOf("a", "DTSTART:"+late, "RECURRENCE-ID:"+early), eventOf("a", "DTSTART:20251208T180000Z", "RECURRENCE-ID:"+early),
		}, early, []string{"could not be told", "could not be told"}},
		"others": {[]string{game("a", early, "0", "x"), game("b", early, "0", "x")}, early + early, nil},
	} {
		entries, skipped, err := Read(calendarOf(c.lines...), time.UTC, horizon)
		starts := ""
		for _, e := range entries {
			starts += e.Start.UTC().Format(utcLayout)
		}
		if err != nil || starts != c.starts || len(skipped) != len(c.reasons) {
			t.Errorf("%s: entries at %q, skipped %+v, %v", name, starts, skipped, err)
			continue
		}
		for i, s := range skipped {
			if s.UID != "a" || !strings.Contains(s.Reason, c.reasons[i]) || s.Known == strings.Contains(s.Reason, "could not be told") {
				t.Errorf("%s: %+v, want %q", name, s, c.reasons[i])
			}
		}
	}
}
