package inventory

import (
	"fmt"
	"strings"
	"time"
)

// lineOfClock tells what is known of a machine's clock.
func (t Teller) lineOfClock(e *Event) string {
	zone := ClubOf(t.View).Location()
	switch b := e.Body.(type) {
	case *ClockDoubted:
		return fmt.Sprintf("the clock was in doubt: it said %s, and the entry before was noted on %s", At(e.Noted).Say(zone), b.Last.Say(zone))
	case *ClockRight:
		return "the clock stood right"
	case *ClockSet:
		entries := "1 entry"
		if count := b.entered(); count != 1 {
			entries = fmt.Sprintf("%d entries", count)
		}
		return fmt.Sprintf("the clock stood wrong: the %s that it dated happened %s", entries, SayShift(time.Duration(b.By)*time.Second))
	}
	return ""
}

// entered counts the entries that a person made: not those that say that the clock was in
// doubt.
func (b *ClockSet) entered() (count uint64) {
	for _, s := range b.stretches() {
		count += s.last - s.first + 1
		for _, doubt := range b.Doubts {
			if doubt.Writer == b.Of && s.first <= doubt.Sequence && doubt.Sequence <= s.last {
				count--
			}
		}
	}
	return count
}

// SayShift says how much later or earlier something was: "2048 days 3 h earlier".
func SayShift(by time.Duration) string {
	word := "later"
	if by < 0 {
		by, word = -by, "earlier"
	}
	const day = 24 * time.Hour
	days, rest := by/day, by%day
	switch {
	case days == 0:
		return fmt.Sprintf("%s %s", sayRest(rest), word)
	case rest == 0:
		return fmt.Sprintf("%d days %s", days, word)
	}
	return fmt.Sprintf("%d days and %s %s", days, sayRest(rest), word)
}

// sayRest writes what is less than a day: "3h20m".
func sayRest(rest time.Duration) string {
	text := strings.TrimSuffix(rest.String(), "0s")
	if strings.HasSuffix(text, "h0m") {
		return strings.TrimSuffix(text, "0m")
	}
	if text == "" || text[len(text)-1] >= '0' && text[len(text)-1] <= '9' {
		return rest.String()
	}
	return text
}
