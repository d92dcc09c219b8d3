package outlook

import (
	"slices"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/wear"
)

// session puts a session into the schedule.
func (b *bench) session(at time.Time, game bool) {
	b.t.Helper()
	s := deeds.AddSession{Start: inventory.At(at), Game: game}
	if game {
		s.Opponent = "Rime Point"
	}
	b.do(theNow, s)
}

// TestSessionsGetTheirPasses counts grinds before and during a session for it, 0 where
// a player skated without one, and nothing where passes are unknown or he was away.
func TestSessionsGetTheirPasses(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.do(day(-90), deeds.PutSetIn{Player: player, Set: b.steel(player, "Skua R")})
	ten := func(n int) time.Time { return day(n).Add(time.Hour) }
	b.session(ten(-60), false) // away: nothing ground for weeks
	b.session(ten(-20), false)
	b.grind(day(-20), player, 5)
	b.session(ten(-19), false) // skated without a grind
	b.session(ten(-18), true)
	b.grind(day(-18), player, 5)
	b.grind(day(-18).Add(2*time.Hour), player, 4) // between periods
	b.session(ten(-17), false)
	b.grind(day(-17), player, 0) // nobody counted
	b.session(ten(-16), false)
	b.grind(day(-16), player, 6)
	pair := b.look().Members[0].SkatesOn()
	got := b.look().passes[pair.Number]
	if !slices.Equal(got[practice], []float64{5, 0, 6}) || !slices.Equal(got[game], []float64{9}) {
		t.Errorf("practices %v, games %v: want 5 0 6 and 9", got[practice], got[game])
	}
}

// TestDatesThroughTheSchedule counts days by the sessions on them.
func TestDatesThroughTheSchedule(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.worn(player, b.steel(player, "Skua R"), 20)
	for n := -9; n < 0; n++ {
		b.session(day(n).Add(time.Hour), n%4 == 0)
		if n%4 == 0 {
			b.grind(day(n), player, 6)
		} else {
			b.grind(day(n), player, 1)
		}
	}
	b.measure(day(-1).Add(2*time.Hour), player, inventory.Fitted, 8.93) // 19 passes, 25 left
	for n := range 14 {
		b.session(day(n).Add(time.Hour), n == 2 || n == 6 || n == 10)
	}
	due := b.only(player)
	near(t, "passes left", due.Passes.Middle, 25, 2)
	if due.Dates == nil {
		t.Fatalf("no dates: %s", due.CannotSay)
	}
	oslo := due.Dates.Middle.Location()
	// A pass on each of ten days but six in the games on the third and seventh: 20 by the
	// tenth day, 26 with the third game on the eleventh.
	if want := midnight(day(10).In(oslo)); !due.Dates.Middle.Equal(want) {
		t.Errorf("due on %v, want the day of the third game, %v", due.Dates.Middle, want)
	}
	if low := due.Dates.Low; low.After(due.Dates.Middle) || low.Before(midnight(day(5).In(oslo))) || due.Sessions.Middle != 11 {
		t.Errorf("dates %v, sessions %v", *due.Dates, *due.Sessions)
	}
	if late := MayBeDue([]Due{due}, due.Dates.Low); len(late) != 0 {
		t.Error("it may be due before the first day that it may")
	}
	if late := MayBeDue([]Due{due}, due.Dates.Low.Add(time.Hour)); len(late) != 1 {
		t.Error("on that day it surely lasts")
	}
}

// TestBeyondTheSchedule tells that a day lies beyond, not which one.
func TestBeyondTheSchedule(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.worn(player, b.steel(player, "Skua R"), 20)
	for n := -10; n < 3; n++ {
		b.session(day(n).Add(time.Hour), false)
		if n < 0 {
			b.grind(day(n), player, 1)
		}
	}
	due := b.only(player)
	if due.Dates == nil || !due.Dates.Middle.IsZero() || due.Until.IsZero() {
		t.Errorf("%v passes left, dates %v until %v: want none before the schedule's end", *due.Passes, due.Dates, due.Until)
	}
}

// TestDaysAcrossTheChangeOfClocks numbers days by the calendar.
func TestDaysAcrossTheChangeOfClocks(t *testing.T) {
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Skip("no zone database")
	}
	c := calendar{today: time.Date(2026, 3, 27, 0, 0, 0, 0, oslo)} // clocks change on the 29th
	for n := range 5 {
		for _, hour := range []int{0, 12, 23} {
			at := time.Date(2026, 3, 27+n, hour, 30, 0, 0, oslo)
			if got := c.dayOf(at.UTC()); got != n {
				t.Errorf("%v is day %d, want %d", at, got, n)
			}
		}
		if got := c.date(n); got.Day() != 27+n || got.Hour() != 0 {
			t.Errorf("day %d is %v", n, got)
		}
	}
}

// TestOneKindStandsForTheOther: where no game was logged, sessions count as alike.
func TestOneKindStandsForTheOther(t *testing.T) {
	own := [sessionKinds][]float64{practice: {5, 6, 5, 4}}
	list, err := costs(wear.Defaults(), own, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "practice", list[practice].Mean, 5, 0.1)
	near(t, "game", list[game].Mean, 5, 0.1)
	if _, err := costs(wear.Defaults(), [sessionKinds][]float64{}, nil); err == nil {
		t.Error("no session, and yet a cost")
	}
}
