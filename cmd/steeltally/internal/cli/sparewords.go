package cli

import (
	"fmt"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// spareWords are the states as people say them.
func spareWords(line desk.SpareLine) string {
	switch line.State {
	case "fix":
		return "fix first"
	case "missing":
		return "MISSING"
	case "declined":
		return "ready, he would rather not"
	}
	return string(line.State)
}

func spareRow(line desk.SpareLine) []string {
	minutes, cause := "", line.Cause
	if line.State == "fix" {
		minutes = fmt.Sprint(line.Minutes)
		if more := len(line.Causes) - 1; more > 0 {
			cause += fmt.Sprintf(" (and %d more, %d min)", more, line.MinutesAll)
		}
	}
	if line.State == "declined" {
		cause = ""
	}
	name := line.Name
	if line.CalledUp {
		name += " (called up)"
	}
	return []string{sayCount(line.Sweater), name, spareWords(line), cause, minutes, line.Place}
}

// saySpareDetails says what was compared and everything that is to be mended.
func (a *app) saySpareDetails(line desk.SpareLine) {
	a.voice.say("\n%s, spare pair %s", line.Whose(), inventory.OrDash(line.Pair.Short()))
	for _, cause := range line.Causes {
		a.voice.say("  %-8s %s (%d min): %s", cause.Fix, cause.Cause, cause.Minutes, cause.Hint)
	}
	c := line.Compared
	rows := [][3]string{
		{"hollow", c.Hollow, c.HollowSpec}, {"profile", c.Profile, c.ProfileSpec},
		{"pitch", sayPitch(c.Pitch), sayPitch(c.PitchSpec)},
		{"left", sayLength(c.Height.Left), sayLength(c.HeightFirst.Left)}, {"right", sayLength(c.Height.Right), sayLength(c.HeightFirst.Right)},
	}
	for _, row := range rows {
		a.voice.say("  %-8s %-24s against %s", row[0], inventory.OrDash(row[1]), inventory.OrDash(row[2]))
	}
	a.voice.say("  days since tried %s, looked at %s, ground %s", sayDays(c.Tried), sayDays(c.Looked), sayDays(c.Ground))
	for _, cause := range line.First.Causes {
		a.voice.say("  first pair: %s", cause.Cause)
	}
	for _, set := range line.Sets {
		words := []string{string(set.Fit)}
		for _, cause := range set.Causes {
			words = append(words, cause.Cause)
		}
		a.voice.say("  set %s %s %s", set.Set, strings.Join(words, ", "), set.Place)
	}
}

func sayPitch(pitch *geometry.Millimetre) string {
	if pitch == nil {
		return ""
	}
	return inventory.SayPitch(*pitch)
}

func sayLength(length *geometry.Millimetre) string {
	if length == nil {
		return ""
	}
	return length.String()
}

func sayDays(days *int) string {
	if days == nil {
		return "never"
	}
	return fmt.Sprint(*days)
}
