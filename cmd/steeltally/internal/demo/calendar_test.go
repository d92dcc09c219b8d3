package demo

import (
	"testing"
	"time"
)

func faroe(t *testing.T) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(zoneName)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// TestEveryDayLiesAmidASeason: whatever the day on which a book ends, some weeks of the
// season have gone and some are to come.
func TestEveryDayLiesAmidASeason(t *testing.T) {
	zone := faroe(t)
	for day := range 1500 {
		end := time.Date(2026, time.January, 1+day, 0, 0, 0, 0, zone)
		c := calendarFor(end, zone)
		s := c.current(end)
		gone, left := end.Sub(s.league).Hours()/24, s.over.Sub(end).Hours()/24
		if gone < 21 || left < 18 {
			t.Fatalf("%s: the league began %.0f days before and ends %.0f days after", end.Format(time.DateOnly), gone, left)
		}
		if s.camp.Weekday() != time.Monday || s.camp.Day() < 22 && s.camp.Month() == c.camp {
			t.Fatalf("%s: the camp begins on %s", end.Format(time.DateOnly), s.camp.Format("Monday 2 January"))
		}
	}
}

func TestBackCountsSeasonsWithoutSummers(t *testing.T) {
	zone := faroe(t)
	end := time.Date(2026, time.November, 25, 0, 0, 0, 0, zone)
	c := calendarFor(end, zone)
	season := c.current(end)
	if back := c.back(end, season.share(end)); !back.Equal(season.camp) {
		t.Errorf("the season's share back is %s, the camp was on %s", back, season.camp)
	}
	for _, seasons := range []float64{.1, .3, 1, 1.5, 7.25} {
		back := c.back(end, seasons)
		between := season.share(end)
		for s := season; back.Before(s.camp); {
			s = c.before(s)
			between += 1 - max(0, s.share(back))
			if !back.Before(s.camp) {
				break
			}
		}
		if back.After(season.camp) {
			between -= season.share(back)
		}
		if between < seasons-.01 || between > seasons+.01 {
			t.Errorf("%.2f seasons back is %s, which is %.3f", seasons, back.Format(time.DateOnly), between)
		}
	}
}

// TestASeasonHasAboutSixtyGames, half of them at home, and no two sessions at one time.
func TestASeasonHasAboutSixtyGames(t *testing.T) {
	c, err := newClub(Options{Seed: 1, End: endDay()})
	if err != nil {
		t.Fatal(err)
	}
	season := c.calendar.current(c.end)
	games, away, practices := 0, 0, 0
	seen := map[time.Time]bool{}
	for _, s := range c.plan(season) {
		if seen[s.start] {
			t.Errorf("two sessions on %s", s.start)
		}
		seen[s.start] = true
		switch {
		case s.start.Before(season.camp) || s.start.After(season.over):
			t.Errorf("a session on %s, outside of the season", s.start)
		case !s.game:
			practices++
		case s.away:
			away++
			fallthrough
		default:
			games++
		}
	}
	if games < 57 || games > 63 || away < 23 || away > 37 || practices < 150 || practices > 210 {
		t.Errorf("%d games, %d of them away, %d practices", games, away, practices)
	}
}

func TestAgendaKeepsTheOrder(t *testing.T) {
	var a agenda
	var done []int
	start := endDay()
	for i, minutes := range []int{5, 0, 5, 3, 0, 9} {
		a.add(start.Add(time.Duration(minutes)*time.Minute), func() { done = append(done, i) })
	}
	for {
		task, ok := a.next(start.Add(9 * time.Minute))
		if !ok {
			break
		}
		task.run()
	}
	want := []int{1, 4, 3, 0, 2}
	if len(done) != len(want) {
		t.Fatalf("ran %v, want %v: what is at the end or later stays", done, want)
	}
	for i := range want {
		if done[i] != want[i] {
			t.Errorf("ran %v, want %v", done, want)
		}
	}
}
