package calendar

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"
)

// rfcExamples are examples of recurrence rules with the dates that RFC 5545 gives for
// them (section 3.8.5.3). All are at 9 in the morning in New York. Where the rule has no
// end, the first of the dates are given, as there.
var rfcExamples = []struct{ start, rule, dates string }{
	{"1997-09-02", "FREQ=DAILY;COUNT=10", "1997 Sep 2-11"},
	{"1997-09-02", "FREQ=DAILY;UNTIL=19971224T000000Z", "1997 Sep 2-30; Oct 1-31; Nov 1-30; Dec 1-23"},
	{"1997-09-02", "FREQ=DAILY;INTERVAL=2", "1997 Sep 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; Oct 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; Nov 1,3,5"},
	{"1997-09-02", "FREQ=DAILY;INTERVAL=10;COUNT=5", "1997 Sep 2,12,22; Oct 2,12"},
	{"1998-01-01", "FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA", "1998 Jan 1-31; 1999 Jan 1-31; 2000 Jan 1-31"},
	{"1998-01-01", "FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1", "1998 Jan 1-31; 1999 Jan 1-31; 2000 Jan 1-31"},
	{"1997-09-02", "FREQ=WEEKLY;COUNT=10", "1997 Sep 2,9,16,23,30; Oct 7,14,21,28; Nov 4"},
	{"1997-09-02", "FREQ=WEEKLY;UNTIL=19971224T000000Z", "1997 Sep 2,9,16,23,30; Oct 7,14,21,28; Nov 4,11,18,25; Dec 2,9,16,23"},
	{"1997-09-02", "FREQ=WEEKLY;INTERVAL=2;WKST=SU", "1997 Sep 2,16,30; Oct 14,28; Nov 11,25; Dec 9,23; 1998 Jan 6,20; Feb 3,17"},
	{"1997-09-02", "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH", "1997 Sep 2,4,9,11,16,18,23,25,30; Oct 2"},
	{"1997-09-02", "FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH", "1997 Sep 2,4,9,11,16,18,23,25,30; Oct 2"},
	{"1997-09-01", "FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR", "1997 Sep 1,3,5,15,17,19,29; Oct 1,3,13,15,17,27,29,31; Nov 10,12,14,24,26,28; Dec 8,10,12,22"},
	{"1997-09-02", "FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH", "1997 Sep 2,4,16,18,30; Oct 2,14,16"},
	{"1997-09-05", "FREQ=MONTHLY;COUNT=10;BYDAY=1FR", "1997 Sep 5; Oct 3; Nov 7; Dec 5; 1998 Jan 2; Feb 6; Mar 6; Apr 3; May 1; Jun 5"},
	{"1997-09-05", "FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR", "1997 Sep 5; Oct 3; Nov 7; Dec 5"},
	{"1997-09-07", "FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU", "1997 Sep 7,28; Nov 2,30; 1998 Jan 4,25; Mar 1,29; May 3,31"},
	{"1997-09-22", "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO", "1997 Sep 22; Oct 20; Nov 17; Dec 22; 1998 Jan 19; Feb 16"},
	{"1997-09-28", "FREQ=MONTHLY;BYMONTHDAY=-3", "1997 Sep 28; Oct 29; Nov 28; Dec 29; 1998 Jan 29; Feb 26"},
	{"1997-09-02", "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15", "1997 Sep 2,15; Oct 2,15; Nov 2,15; Dec 2,15; 1998 Jan 2,15"},
	{"1997-09-30", "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1", "1997 Sep 30; Oct 1,31; Nov 1,30; Dec 1,31; 1998 Jan 1,31; Feb 1"},
	{"1997-09-10", "FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15", "1997 Sep 10,11,12,13,14,15; 1999 Mar 10,11,12,13"},
	{"1997-09-02", "FREQ=MONTHLY;INTERVAL=2;BYDAY=TU", "1997 Sep 2,9,16,23,30; Nov 4,11,18,25; 1998 Jan 6,13,20,27; Mar 3,10,17,24,31"},
	{"1997-06-10", "FREQ=YEARLY;COUNT=10;BYMONTH=6,7", "1997 Jun 10; Jul 10; 1998 Jun 10; Jul 10; 1999 Jun 10; Jul 10; 2000 Jun 10; Jul 10; 2001 Jun 10; Jul 10"},
	{"1997-03-10", "FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3", "1997 Mar 10; 1999 Jan 10; Feb 10; Mar 10; 2001 Jan 10; Feb 10; Mar 10; 2003 Jan 10; Feb 10; Mar 10"},
	{"1997-05-19", "FREQ=YEARLY;BYDAY=20MO", "1997 May 19; 1998 May 18; 1999 May 17"},
	{"1997-03-13", "FREQ=YEARLY;BYMONTH=3;BYDAY=TH", "1997 Mar 13,20,27; 1998 Mar 5,12,19,26; 1999 Mar 4,11,18,25"},
	{"1997-06-05", "FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8", "1997 Jun 5,12,19,26; Jul 3,10,17,24,31; Aug 7,14,21,28; 1998 Jun 4,11,18,25; Jul 2,9,16,23,30; Aug 6,13,20,27"},
	{"1997-09-13", "FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13", "1997 Sep 13; Oct 11; Nov 8; Dec 13; 1998 Jan 10; Feb 7; Mar 7; Apr 11; May 9; Jun 13"},
	{"1996-11-05", "FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8", "1996 Nov 5; 2000 Nov 7; 2004 Nov 2"},
	{"1997-09-04", "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", "1997 Sep 4; Oct 7; Nov 6"},
	{"1997-09-29", "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2", "1997 Sep 29; Oct 30; Nov 27; Dec 30; 1998 Jan 29; Feb 26; Mar 30"},
	{"1997-08-05", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "1997 Aug 5,10,19,24"},
	{"1997-08-05", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "1997 Aug 5,17,19,31"},
	{"2007-01-15", "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", "2007 Jan 15,30; Feb 15; Mar 15,30"},
}

// nineInNewYork reads "1997 Sep 2-11; Oct 1,3" as days at 9 in the morning there.
func nineInNewYork(t *testing.T, text string) []time.Time {
	t.Helper()
	var days []time.Time
	year := ""
	for part := range strings.SplitSeq(text, "; ") {
		fields := strings.Fields(part)
		if len(fields) == 3 {
			year, fields = fields[0], fields[1:]
		}
		for span := range strings.SplitSeq(fields[1], ",") {
			from, to, isSpan := strings.Cut(span, "-")
			if !isSpan {
				to = from
			}
			first, _ := strconv.Atoi(from)
			last, _ := strconv.Atoi(to)
			for day := first; day <= last; day++ {
				days = append(days, nine(t, fmt.Sprintf("%s %s %d", year, fields[0], day), "2006 Jan 2"))
			}
		}
	}
	return days
}

func newYork(t *testing.T) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func nine(t *testing.T, text, layout string) time.Time {
	t.Helper()
	day, err := time.ParseInLocation(layout, text, newYork(t))
	if err != nil {
		t.Fatal(err)
	}
	return time.Date(day.Year(), day.Month(), day.Day(), 9, 0, 0, 0, newYork(t))
}

func TestRulesComeWhenTheStandardSays(t *testing.T) {
	for _, example := range rfcExamples {
		start, want := nine(t, example.start, time.DateOnly), nineInNewYork(t, example.dates)
		rule, err := parseRule(example.rule, newYork(t))
		if err != nil {
			t.Errorf("%s: %v", example.rule, err)
			continue
		}
		until := start.AddDate(12, 0, 0)
		if rule.count == 0 && rule.until.IsZero() {
			until = want[len(want)-1]
		}
		got, err := rule.expand(start, until, &steps{})
		if err != nil {
			t.Errorf("%s: %v", example.rule, err)
		}
		if len(got) != len(want) {
			t.Errorf("%s: %d times, want %d: %v", example.rule, len(got), len(want), got)
			continue
		}
		for i := range want {
			if !got[i].Equal(want[i]) {
				t.Errorf("%s: %v, want %v", example.rule, got[i], want[i])
			}
		}
	}
	if len(rfcExamples) < 30 {
		t.Errorf("only %d examples", len(rfcExamples))
	}
}

func TestRulesThatAreRefused(t *testing.T) {
	for _, text := range []string{
		"", "FREQ", "COUNT=3", "FREQ=HOURLY", "FREQ=FORTNIGHTLY", "FREQ=DAILY;INTERVAL=0", "FREQ=DAILY;COUNT=-1", "FREQ=DAILY;COUNT=x",
		"FREQ=DAILY;UNTIL=tomorrow", "FREQ=WEEKLY;BYDAY=XX", "FREQ=WEEKLY;BYDAY=M", "FREQ=WEEKLY;BYDAY=U ", "FREQ=MONTHLY;BYDAY=0MO", "FREQ=MONTHLY;BYDAY=99MO",
		"FREQ=MONTHLY;BYMONTHDAY=0", "FREQ=MONTHLY;BYMONTHDAY=32", "FREQ=YEARLY;BYMONTH=13", "FREQ=YEARLY;BYWEEKNO=20", "FREQ=YEARLY;BYYEARDAY=1",
		"FREQ=YEARLY;BYSETPOS=0", "FREQ=WEEKLY;WKST=1",
	} {
		if rule, err := parseRule(text, time.UTC); err == nil {
			t.Errorf("%q was read as %+v", text, rule)
		}
	}
}

// A rule that never comes ends where it is told to, and one without an end too.
func TestRulesEnd(t *testing.T) {
	start := time.Date(2025, 1, 31, 9, 0, 0, 0, time.UTC)
	for text, want := range map[string]int{"FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30": 1, "FREQ=DAILY": mostInstances + 1, "FREQ=MONTHLY": 1 + 7*25 - 1} {
		rule, err := parseRule(text, time.UTC)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := rule.expand(start, start.AddDate(25, 0, -1), &steps{}); err != nil || len(got) != want {
			t.Errorf("%s: %d times, %v, want %d", text, len(got), err, want)
		}
	}
}

// A list of days is all of them, the counted ones among others; a fifth day of a month that
// has four, or a twentieth, is none.
func TestDaysOfAListAddUp(t *testing.T) {
	start := time.Date(2025, 6, 2, 9, 0, 0, 0, time.UTC)
	for text, want := range map[string]string{
		"FREQ=YEARLY;BYDAY=2MO,TU;BYMONTH=6":               "2 3 9 10 17 24",
		"FREQ=MONTHLY;BYDAY=20SA;BYMONTH=6":                "2",
		"FREQ=MONTHLY;BYDAY=5MO,5TU,1WE":                   "2 4 30",
		"FREQ=WEEKLY;BYDAY=MO,TH,FR;BYSETPOS=2;INTERVAL=2": "2 5 19",
		"FREQ=MONTHLY;BYDAY=-1SA,MO;BYSETPOS=-1;BYMONTH=6": "2 30",
		"FREQ=DAILY;BYDAY=SA,SU;BYMONTHDAY=7,8,9,14,15,16": "2 7 8 14 15",
	} {
		rule, err := parseRule(text, time.UTC)
		if err != nil {
			t.Fatal(err)
		}
		times, err := rule.expand(start, start.AddDate(0, 0, 28), &steps{})
		var days []string
		for _, at := range times {
			days = append(days, strconv.Itoa(at.Day()))
		}
		if got := strings.Join(days, " "); got != want || err != nil {
			t.Errorf("%s: June %s, %v, want %s", text, got, err, want)
		}
	}
}
