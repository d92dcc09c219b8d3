package deeds

import (
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

func TestNothingIsNotedInTheFuture(t *testing.T) {
	for text, taken := range map[string]bool{
		"2025-12-15 12:00": true, "2025-12-15 12:02": true, "2025-12-15 12:03": false, "2025-12-16": false, "2026": false,
		"2025": true, "2025-12": true, "2025/26": true, "unknown": true, "2205-12-15": false,
	} {
		w, err := inventory.ParseWhen(text, time.UTC)
		if err == nil {
			_, err = NewMoment(w, theNow)
		}
		if (err == nil) != taken {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// A time is told as it was typed, on the club's clocks.
func TestTheFutureIsToldOnTheClubsClocks(t *testing.T) {
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	typed, err := inventory.ParseWhen("2027-01-01 00:30", oslo)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := NewMoment(typed, theNow.In(oslo)); err == nil || !strings.Contains(err.Error(), "1 Jan 2027 00:30 is in the future") {
		t.Errorf("told: %v", err)
	}
}

// A machine that lost its battery says 1970.
func TestAClockOfAnotherCenturyIsRefused(t *testing.T) {
	for _, now := range []time.Time{time.Unix(0, 0), time.Date(2101, 1, 1, 0, 0, 0, 0, time.UTC)} {
		if _, err := NewMoment(inventory.At(now), now.UTC()); err == nil || !strings.Contains(err.Error(), now.UTC().Format("2006")) {
			t.Errorf("%v: told %v", now, err)
		}
		if _, err := NewMoment(when(t, "2025-11-04"), now.UTC()); err == nil {
			t.Errorf("at %v a typed time was taken", now)
		}
	}
}
