package deeds

import (
	"testing"
	"time"

	"steeltally/inventory"
)

func scheduled(t *testing.T, uid, start, opponent string, sequence int) Scheduled {
	t.Helper()
	when, err := inventory.ParseWhen(start, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	return Scheduled{InCalendar: inventory.InCalendar{UID: uid, Sequence: sequence}, Start: when, Game: true, Opponent: opponent}
}

// schedule lists the games and practices of the winter, in short.
func (d *desk) schedule() []string {
	var all []string
	for _, s := range inventory.Sessions(&d.Ledger, theNow.AddDate(0, -3, 0), theNow.AddDate(0, 6, 0)) {
		all = append(all, s.When.Start.Format("2 Jan 15:04 ")+inventory.SaySession(&s.Value))
	}
	return all
}

func (d *desk) scheduleIs(want ...string) {
	d.t.Helper()
	got := d.schedule()
	if len(got) != len(want) {
		d.t.Fatalf("the schedule is %q, want %q", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			d.t.Errorf("the schedule has %q, want %q", got[i], want[i])
		}
	}
}

// A game that moves into another month is there once; the same file again changes
// nothing, an older one neither, and what is called off is gone.
func TestGamesThatMove(t *testing.T) {
	d := openBook(t)
	first := scheduled(t, "g1", "2025-12-06 19:00", "Rime Point", 0)
	second := scheduled(t, "g2", "2025-12-09 19:00", "Cold Sound", 0)
	d.do("2 08:00", ImportSchedule{Entries: []Scheduled{first, second}})
	d.scheduleIs("6 Dec 19:00 game against Rime Point", "9 Dec 19:00 game against Cold Sound")
	d.refuses("2 09:00", ImportSchedule{Entries: []Scheduled{first, second}}, "as in the file already")
	moved := scheduled(t, "g1", "2026-01-03 17:30", "Rime Point", 1)
	d.do("3 08:00", ImportSchedule{Entries: []Scheduled{moved, second}})
	d.told("1 entry of the schedule was moved")
	d.scheduleIs("9 Dec 19:00 game against Cold Sound", "3 Jan 17:30 game against Rime Point")
	d.refuses("3 09:00", ImportSchedule{Entries: []Scheduled{first, second}}, "as in the file already")
	off := second
	off.Cancelled, off.Sequence = true, 1
	d.do("4 08:00", ImportSchedule{Entries: []Scheduled{moved, off}})
	d.scheduleIs("3 Jan 17:30 game against Rime Point")
	d.refuses("4 09:00", ImportSchedule{Entries: []Scheduled{moved, off}}, "as in the file already")
}

// What was entered by hand at the time of an entry is that entry.
func TestGamesEnteredByHandAreTakenOver(t *testing.T) {
	d := openBook(t)
	start := scheduled(t, "g1", "2025-12-06 19:00", "Rime Point", 0)
	d.do("2 08:00", AddSession{Start: start.Start, Game: true, Opponent: "Rime Pt."})
	d.do("2 09:00", ImportSchedule{Entries: []Scheduled{start}})
	d.scheduleIs("6 Dec 19:00 game against Rime Point")
}

// Of a series that moved, what is to come moves along and what is past stays.
func TestASeriesThatMoves(t *testing.T) {
	d := openBook(t)
	practice := func(day string) Scheduled {
		s := scheduled(t, "p", day, "", 0)
		s.Game, s.Instance = false, s.Start
		return s
	}
	d.do("1 09:00", ImportSchedule{Entries: []Scheduled{practice("2025-11-03 10:00"), practice("2026-01-12 10:00"), practice("2026-01-19 10:00")}})
	d.do("2 09:00", ImportSchedule{Entries: []Scheduled{practice("2026-01-13 10:00"), practice("2026-01-20 10:00")}})
	d.scheduleIs("3 Nov 10:00 practice", "13 Jan 10:00 practice", "20 Jan 10:00 practice")
}

// What of a series could not be read is no reason to take its other times out.
func TestASeriesThatWasReadInPartStays(t *testing.T) {
	d := openBook(t)
	practice := func(day string) Scheduled {
		s := scheduled(t, "p", day, "", 0)
		s.Game, s.Instance = false, s.Start
		return s
	}
	both := []Scheduled{practice("2026-01-12 10:00"), practice("2026-01-19 10:00")}
	d.do("1 09:00", ImportSchedule{Entries: both})
	d.refuses("2 09:00", ImportSchedule{Entries: both[:1], Unread: []string{"p"}}, "as in the file already")
	d.scheduleIs("12 Jan 10:00 practice", "19 Jan 10:00 practice")
	d.do("2 09:00", ImportSchedule{Entries: both[:1]})
	d.scheduleIs("12 Jan 10:00 practice")
}

func TestEntriesThatCannotBeImported(t *testing.T) {
	d := openBook(t)
	good := scheduled(t, "g", "2025-12-06 19:00", "Rime Point", 0)
	day := scheduled(t, "g", "2025-12-06", "Rime Point", 0)
	nobody := scheduled(t, "g", "2025-12-06 19:00", "", 0)
	unnumbered := scheduled(t, "", "2025-12-06 19:00", "Rime Point", 0)
	steering := scheduled(t, "g\x1b", "2025-12-06 19:00", "", 0)
	steering.Game = false
	early := scheduled(t, "g", "2025-12-06 19:00", "Rime Point", 0)
	early.Start = inventory.At(time.Date(1601, 1, 1, 0, 0, 0, 0, time.UTC))
	for reason, entries := range map[string][]Scheduled{
		"no game or practice": nil, "no time of day": {good, day}, "opponent's name is empty": {nobody}, "no number": {unnumbered},
		"nobody can see": {steering}, "1990 to 2100": {early},
	} {
		d.refuses("2 08:00", ImportSchedule{Entries: entries}, reason)
	}
}
