package calendar

import (
	"os"
	"strings"
	"testing"
	"time"
)

// horizon is until when what has no end is followed in these tests.
var horizon = time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)

func oslo(t *testing.T) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func readFile(t *testing.T, name string) []Entry {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	entries, skipped, err := Read(string(text), oslo(t), horizon)
	if err != nil || len(skipped) != 0 {
		t.Fatalf("%s: %v, skipped %v", name, err, skipped)
	}
	return entries
}

// events reads events written as lines of properties, parted by a line of dashes.
func events(t *testing.T, text string) ([]Entry, []Skipped) {
	t.Helper()
	file := "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Skarn Harbour//schedule//EN\r\n"
	for event := range strings.SplitSeq(text, "---") {
		file += "BEGIN:VEVENT\r\n" + strings.ReplaceAll(strings.TrimSpace(event), "\n", "\r\n") + "\r\nEND:VEVENT\r\n"
	}
	entries, skipped, err := Read(file+"END:VCALENDAR\r\n", oslo(t), horizon)
	if err != nil {
		t.Fatal(err)
	}
	return entries, skipped
}

// starts are the starts of entries in Oslo, in short.
func starts(t *testing.T, entries []Entry) string {
	t.Helper()
	var all []string
	for _, e := range entries {
		all = append(all, e.Start.In(oslo(t)).Format("2 Jan 15:04"))
	}
	return strings.Join(all, ", ")
}

// The examples of RFC 5545, section 4, with the times that it gives for them.
func TestThePublishedExamples(t *testing.T) {
	for name, want := range map[string]Entry{
		"conference.ics": {
			UID: "uid1@example.com", Start: time.Date(1996, 9, 18, 14, 30, 0, 0, time.UTC), Summary: "Networld+Interop Conference",
			Categories: []string{"CONFERENCE"},
		},
		"review.ics": {
			UID: "guid-1.example.com", Start: time.Date(1998, 3, 12, 13, 30, 0, 0, time.UTC), Summary: "XYZ Project Review",
			Categories: []string{"MEETING"}, Location: "1CP Conference Room 4350",
		},
	} {
		entries := readFile(t, name)
		if len(entries) != 1 {
			t.Fatalf("%s: %d entries", name, len(entries))
		}
		got := entries[0]
		if !got.Start.Equal(want.Start) || got.UID != want.UID || got.Summary != want.Summary || got.Location != want.Location ||
			len(got.Categories) != 1 || got.Categories[0] != want.Categories[0] || got.AllDay || got.Cancelled || !got.Instance.IsZero() {
			t.Errorf("%s: %+v\nwant %+v", name, got, want)
		}
	}
}

// A zone that a file defines (the one of New York since 1967 in RFC 5545, 3.6.5) goes by
// the same clocks as the time zone database has them, at every fifth noon for sixty
// years.
func TestDefinedZonesGoByTheDatabasesClocks(t *testing.T) {
	text, err := os.ReadFile("testdata/newyork.ics")
	if err != nil {
		t.Fatal(err)
	}
	zone := newYork(t)
	var days []time.Time
	var list strings.Builder
	for day := time.Date(1967, 6, 1, 12, 0, 0, 0, time.UTC); day.Year() < 2027; day = day.AddDate(0, 0, 5) {
		days = append(days, day)
		list.WriteString("BEGIN:VEVENT\nUID:" + day.Format(dayLayout) + "\nDTSTART;TZID=Eastern clocks:" + day.Format(localLayout) + "\nEND:VEVENT\n")
	}
	file := strings.Replace(string(text), "END:VTIMEZONE\n", "END:VTIMEZONE\n"+list.String(), 1)
	entries, skipped, err := Read(file, time.UTC, horizon)
	if err != nil || len(entries) != len(days) || len(skipped) != 0 {
		t.Fatalf("%v, %d entries of %d, skipped %v", err, len(entries), len(days), skipped)
	}
	for i, day := range days {
		if want := inLocation(day, zone); !entries[i].Start.Equal(want) {
			t.Fatalf("%v is %v, want %v", day, entries[i].Start, want)
		}
	}
	if len(days) < 4000 {
		t.Errorf("only %d noons", len(days))
	}
}

func TestTimesAndTheirZones(t *testing.T) {
	entries, _ := events(t, `UID:utc
DTSTART:20251206T180000Z
---
UID:floating
DTSTART:20251206T200000
---
UID:named
DTSTART;TZID=America/New_York:20251206T150000
---
UID:quoted
DTSTART;TZID="Europe/London":20251206T210000
---
UID:day
DTSTART;VALUE=DATE:20251207`)
	if got := starts(t, entries); got != "6 Dec 19:00, 6 Dec 20:00, 6 Dec 21:00, 6 Dec 22:00, 7 Dec 00:00" {
		t.Errorf("starts %s", got)
	}
	if !entries[4].AllDay || entries[3].AllDay {
		t.Error("the whole day is not told from an hour")
	}
}

// A practice on Tuesdays keeps its hour when the clocks change, leaves out a holiday, has
// one more, and one was moved, another called off.
func TestWhatRecurs(t *testing.T) {
	entries, _ := events(t, `UID:practice
DTSTART;TZID=Europe/Oslo:20251014T100000
RRULE:FREQ=WEEKLY;UNTIL=20251118T235959Z
EXDATE;TZID=Europe/Oslo:20251021T100000,20251028T100000
RDATE;TZID=Europe/Oslo:20251030T120000
SUMMARY:Practice
---
UID:practice
RECURRENCE-ID;TZID=Europe/Oslo:20251104T100000
SEQUENCE:1
DTSTART;TZID=Europe/Oslo:20251105T143000
SUMMARY:Practice\, moved
---
UID:practice
RECURRENCE-ID:20251111T090000Z
STATUS:CANCELLED
DTSTART;TZID=Europe/Oslo:20251111T100000
SUMMARY:Practice`)
	if got := starts(t, entries); got != "14 Oct 10:00, 30 Oct 12:00, 5 Nov 14:30, 11 Nov 10:00, 18 Nov 10:00" {
		t.Errorf("starts %s", got)
	}
	moved, off := entries[2], entries[3]
	if moved.Summary != "Practice, moved" || moved.Sequence != 1 || moved.Cancelled || moved.Instance.Format(time.RFC3339) != "2025-11-04T09:00:00Z" {
		t.Errorf("moved: %+v", moved)
	}
	if !off.Cancelled || off.Instance.Format(time.RFC3339) != "2025-11-11T09:00:00Z" {
		t.Errorf("called off: %+v", off)
	}
}

func TestWhatCannotBeRead(t *testing.T) {
	entries, skipped := events(t, `SUMMARY:no number
DTSTART:20251206T180000Z
---
UID:nowhere
DTSTART;TZID=Harbour time:20251206T180000
---
UID:never
---
UID:hourly
DTSTART:20251206T180000Z
RRULE:FREQ=HOURLY
---
UID:good
DTSTART:20251206T180000Z`)
	if len(entries) != 1 || entries[0].UID != "good" || len(skipped) != 4 {
		t.Fatalf("read %+v, skipped %+v", entries, skipped)
	}
	for i, reason := range []string{"no UID", `"Harbour time" is not known`, "it is missing", "HOURLY is not followed"} {
		if !strings.Contains(skipped[i].Reason, reason) {
			t.Errorf("skipped because %q, want %q", skipped[i].Reason, reason)
		}
	}
}

func TestAWholeFileThatIsCalledOff(t *testing.T) {
	file := "BEGIN:VCALENDAR\nVERSION:2.0\nMETHOD:CANCEL\nBEGIN:VEVENT\nUID:a\nDTSTART:20251206T180000Z\nEND:VEVENT\nEND:VCALENDAR\n"
	entries, _, err := Read(file, time.UTC, horizon)
	if err != nil || len(entries) != 1 || !entries[0].Cancelled {
		t.Errorf("%+v, %v", entries, err)
	}
}

func TestWhatIsNoCalendar(t *testing.T) {
	for _, text := range []string{"", "hello", "BEGIN:VCALENDAR", "BEGIN:VEVENT\nEND:VEVENT\n", "\x00\xff", "BEGIN:VCALENDAR\nBEGIN:VEVENT\nDTSTART"} {
		if entries, _, err := Read(text, time.UTC, horizon); err == nil && len(entries) > 0 {
			t.Errorf("%q was read as %+v", text, entries)
		}
	}
	forever := "BEGIN:VCALENDAR\nVERSION:2.0\nBEGIN:VEVENT\nUID:a\nDTSTART:19000101T000000Z\nRRULE:FREQ=DAILY\nEND:VEVENT\nEND:VCALENDAR\n"
	if _, _, err := Read(forever, time.UTC, horizon); err == nil {
		t.Error("46,000 days were read")
	}
}

// Whatever a file holds, reading it ends without a crash.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"conference.ics", "review.ics", "newyork.ics"} {
		text, err := os.ReadFile("testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nDTSTART;TZID=\"x\":20251206T180000\nRRULE:FREQ=YEARLY;BYDAY=-1SU\nEXDATE:2025\nEND:VEVENT\nEND:VCALENDAR\n")
	f.Fuzz(func(t *testing.T, text string) {
		entries, _, err := Read(text, time.UTC, horizon)
		if err != nil && len(entries) > 0 {
			t.Errorf("an error and %d entries", len(entries))
		}
		for _, e := range entries {
			if e.UID == "" {
				t.Errorf("an entry without a UID: %+v", e)
			}
		}
	})
}
