package deeds

import (
	"fmt"
	"strings"
	"testing"

	"steeltally/inventory"
)

// measured notes one height of the left runner of bo's set A on a reference.
func (c *clubhouse) measured(text string, reference inventory.Reference, height millimetre) {
	c.t.Helper()
	c.do(text, MeasureSteel{
		Player: c.bo, Set: c.setA, Reference: reference, AsRead: true,
		Heights: []inventory.Height{{Runner: c.runners[0], Side: inventory.Left, Middle: &height}},
	})
}

// said writes a series in one line: "new 5:11.80 10:11.60 / 0:11.20 since 5".
func said(s inventory.Series) string {
	var parts []string
	for _, stretch := range s.Stretches {
		var words []string
		if stretch.New {
			words = append(words, "new")
		}
		for _, r := range stretch.Readings {
			words = append(words, fmt.Sprintf("%d:%.2f", r.Passes, float64(r.Height)))
		}
		parts = append(parts, strings.Join(words, " "))
	}
	line := fmt.Sprintf("%s since %d", strings.Join(parts, " / "), s.Since)
	if s.SinceUnknown {
		line += "?"
	}
	return line
}

// TestSeries orders heights by the passes before them, each reference by itself.
func TestSeries(t *testing.T) {
	c := openClubhouse(t)
	want := func(text string, reference inventory.Reference, line string) {
		t.Helper()
		if got := said(c.runner(c.runners[0]).Series(reference, at(t, text))); got != line {
			t.Errorf("%s, %s: %q, want %q", text, reference, got, line)
		}
	}
	c.putIn("3 10:00", c.setA)
	want("3 11:00", inventory.Fitted, "new since 0")
	c.grind("4 07:00")
	c.measured("4 08:00", inventory.Fitted, 11.8)
	c.grind("5 07:00")
	c.measured("5 08:00", inventory.Loose, 11.5)
	c.do("5 09:00", Grind{Player: c.bo, Work: "hone"}) // takes nothing that a caliper shows
	c.measured("5 10:00", inventory.Fitted, 11.6)
	c.grind("6 07:00")
	want("6 08:00", inventory.Fitted, "new 5:11.80 10:11.60 since 5")
	want("6 08:00", inventory.Loose, "new 10:11.50 since 5")
	want("4 09:00", inventory.Fitted, "new 5:11.80 since 0")
}

// TestUnknownPassesEndAStretch begins another with the next height.
func TestUnknownPassesEndAStretch(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 07:00")
	c.measured("4 08:00", inventory.Fitted, 11.8)
	c.do("5 07:00", Grind{Player: c.bo, Unknown: true, By: "rink at Rime Point"})
	c.grind("6 07:00")
	series := func() inventory.Series { return c.runner(c.runners[0]).Series(inventory.Fitted, at(t, "9 08:00")) }
	if got := said(series()); got != "new 5:11.80 since 5?" {
		t.Errorf("before it was measured again: %q", got)
	}
	c.measured("6 08:00", inventory.Fitted, 11.4)
	c.grind("7 07:00")
	c.measured("7 08:00", inventory.Fitted, 11.3)
	if got := said(series()); got != "new 5:11.80 / 0:11.40 5:11.30 since 0" {
		t.Errorf("after it was measured again: %q", got)
	}
	if s := series(); s.Readings() != 3 || s.Last().Height != 11.3 {
		t.Errorf("%d readings, the last %+v", s.Readings(), s.Last())
	}
}

// TestVagueTimesStayOut leaves out a height of a vague time; a grind of a vague time
// unsettles the heights within it only.
func TestVagueTimesStayOut(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 07:00")
	c.measured("4 08:00", inventory.Fitted, 11.8)
	c.measured("2025-11-05", inventory.Fitted, 11.7)
	c.do("2025-11-06", Grind{Player: c.bo}) // some time that day
	c.measured("6 12:00", inventory.Fitted, 11.5)
	c.grind("8 07:00")
	c.measured("8 08:00", inventory.Fitted, 11.4)
	c.grind("9 07:00")
	c.measured("9 08:00", inventory.Fitted, 11.3)
	got := said(c.runner(c.runners[0]).Series(inventory.Fitted, at(t, "9 09:00")))
	if got != "new 5:11.80 / 0:11.50 / 0:11.40 5:11.30 since 0" {
		t.Errorf("%q", got)
	}
}
