package cli

import (
	"fmt"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

func saySet(due desk.Due) string {
	if due.Role == "first" {
		return due.Letter
	}
	return due.Letter + " (" + due.Role + " pair)"
}

// sayHeights is where the runners stand against the change height.
func sayHeights(due desk.Due) string {
	line := ""
	for _, side := range due.Sides {
		if side.Height != 0 {
			line += fmt.Sprintf("%s about %.1f, ", side.Side, float64(side.Height))
		}
	}
	if due.Change == nil {
		return line
	}
	if due.Refusal != nil && due.Standing == desk.DueNow {
		line += "said no before, "
	}
	return line + "change at " + due.Change.String()
}

// sayLast is what the runners last measured: "last left 17.51, right 17.57 on 1 Jan 2026".
func sayLast(due desk.Due, zone *time.Location) string {
	line, on := "", ""
	for _, side := range due.Sides {
		if side.Last != nil {
			line += fmt.Sprintf("%s %.2f, ", side.Side, float64(side.Last.Height))
			on = side.Last.When.SayDay(zone)
		}
	}
	if line == "" {
		return "never measured"
	}
	return "last " + strings.TrimSuffix(line, ", ") + " on " + on
}

// sayDueDates is the first day due: "Thu 4 Dec (Wed 3 Dec to Sat 6 Dec)".
func sayDueDates(due desk.Due) string {
	if due.Dates == nil {
		return due.CannotSay
	}
	after := func(day time.Time) string {
		if day.IsZero() {
			return "after " + sayDay(due.Until)
		}
		return sayDay(day)
	}
	if due.Dates.Low.IsZero() {
		return "after " + sayDay(due.Until)
	}
	if due.Dates.Low.Equal(due.Dates.High) {
		return after(due.Dates.Middle)
	}
	return fmt.Sprintf("%s (%s to %s)", after(due.Dates.Middle), after(due.Dates.Low), after(due.Dates.High))
}

func sayDay(day time.Time) string { return day.Format("Mon 2 Jan") }

// sayReady names the sets that could go on: "B, C (not ground)".
func sayReady(due desk.Due) string {
	var sets []string
	for _, set := range due.Ready {
		word := set.Letter
		if !set.Ground {
			word += " (not ground)"
		}
		sets = append(sets, word)
	}
	if len(sets) == 0 {
		return "NONE"
	}
	return list(sets)
}

// sayMeasure is when the next height is worth its while.
func sayMeasure(due desk.Due) string {
	switch {
	case due.Measure.InPasses < 1:
		return "now"
	case due.Measure.On.IsZero():
		return fmt.Sprintf("in %.0f passes", due.Measure.InPasses)
	}
	return sayDay(due.Measure.On)
}

// shorten keeps a long name from pushing the figures off the screen.
func shorten(name string) string {
	const most = 22
	if letters := []rune(name); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return name
}
