package deeds

import (
	"testing"
	"time"
)

// TestAClockIsDoubtedFarFromWhatWasNoted: a minute back of what the same machine noted, a
// day back of another's, and a day ahead of all (common practice, no source).
func TestAClockIsDoubtedFarFromWhatWasNoted(t *testing.T) {
	noted := time.Date(2025, 11, 26, 7, 0, 0, 0, time.UTC)
	at := func(d time.Duration) time.Time { return noted.Add(d) }
	const day = 24 * time.Hour
	var never time.Time
	for name, c := range map[string]struct {
		noted Noted
		now   time.Time
		last  time.Time // zero: no doubt
	}{
		"the same instant":                     {Noted{noted, noted}, noted, never},
		"a minute back":                        {Noted{noted, noted}, at(-time.Minute), never},
		"more than a minute back":              {Noted{noted, noted}, at(-time.Minute - time.Second), noted},
		"a day ahead":                          {Noted{noted, noted}, at(day), never},
		"more than a day ahead":                {Noted{noted, noted}, at(day + time.Second), noted},
		"another machine noted since":          {Noted{noted, at(3 * day)}, at(3*day + time.Hour), never},
		"more than a day after that":           {Noted{noted, at(3 * day)}, at(4*day + time.Second), at(3 * day)},
		"another machine is years ahead":       {Noted{noted, at(2000 * day)}, at(time.Hour), never},
		"that one, and own clock a week ahead": {Noted{noted, at(2000 * day)}, at(7 * day), noted},
		"nothing noted here, a day back":       {Noted{never, noted}, at(-day), never},
		"nothing noted here, more than a day":  {Noted{never, noted}, at(-day - time.Second), noted},
		"nothing noted here, far ahead":        {Noted{never, noted}, at(day + time.Second), noted},
	} {
		if last, doubted := c.noted.Doubts(c.now); doubted != !c.last.IsZero() || doubted && !last.Equal(c.last) {
			t.Errorf("%s: %v, %s; want %s", name, doubted, last, c.last)
		}
	}
}
