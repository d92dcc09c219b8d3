package desk

import (
	"fmt"
	"strings"
	"time"
)

// DueSection is a part of the list of what is due, under one heading.
type DueSection struct {
	Heading string
	Columns []string // empty: what stands in the rows explains itself
	Rows    []DueRow
}

// DueRow is one set that is on, in words.
type DueRow struct {
	Due   Due
	Cells []string
}

// dueHeadings are the parts of the list, in their order.
var dueHeadings = [...]struct {
	standing Standing
	heading  string
}{
	{DoNotSkate, "DO NOT SKATE"},
	{DueNow, "CHANGE NOW"},
	{ComingUp, "COMING UP"},
	{NeedsMeasure, "CAN'T SAY UNTIL MEASURED"},
	{NeedsMore, "CAN'T SAY"},
	{SaidNo, "ASKED, SAID NO"},
}

// DueSections puts what is due into words, the most urgent first. Parts with nothing in
// them are left out.
func DueSections(all []Due, zone *time.Location) []DueSection {
	var sections []DueSection
	for _, part := range dueHeadings {
		section := DueSection{Heading: part.heading}
		if part.standing == ComingUp {
			section.Columns = []string{"passes left", "due", "ready", "measure"}
		}
		for _, due := range all {
			if due.Standing == part.standing {
				row := DueRow{due, dueCells(due, zone)}
				if due.Never {
					row.Cells[len(row.Cells)-1] += "; never ground"
				}
				section.Rows = append(section.Rows, row)
			}
		}
		if len(section.Rows) > 0 {
			sections = append(sections, section)
		}
	}
	return sections
}

func dueCells(due Due, zone *time.Location) []string {
	switch due.Standing {
	case DoNotSkate:
		var wrong []string
		for _, damage := range due.Unsafe {
			wrong = append(wrong, damage.Piece.Short()+": "+damage.Where())
		}
		return []string{strings.Join(wrong, ", "), "take it off now"}
	case DueNow:
		return []string{sayDueHeights(due), "ready: " + sayReady(due)}
	case NeedsMeasure:
		return []string{sayUnmeasured(due, zone), due.ToDo}
	case NeedsMore:
		return []string{due.CannotSay, due.ToDo}
	case SaidNo:
		no := due.Refusal
		return []string{fmt.Sprintf("asked %s: %s", no.When.SayDay(zone), no.Value.Answer), "ask again " + no.Value.Review.SayDay(zone), sayDueHeights(due)}
	}
	left := fmt.Sprintf("%.0f (%.0f to %.0f)", due.Passes.Middle, due.Passes.Low, due.Passes.High)
	return []string{left, sayDueDates(due), sayReady(due), sayMeasure(due)}
}

// SayDueSet names the set and, where it is not the first, its pair: "B (spare pair)".
func SayDueSet(due Due) string {
	if due.Role == "first" {
		return due.Letter
	}
	return due.Letter + " (" + due.Role.Pair() + ")"
}

// sayHeights is where the runners stand against the change height.
func sayDueHeights(due Due) string {
	line := ""
	for _, side := range due.Sides {
		if side.Now != nil {
			line += fmt.Sprintf("%s about %.1f, ", side.Side, float64(*side.Now))
		}
	}
	if due.Change == nil {
		return line
	}
	if due.Refusal != nil && due.Standing == DueNow {
		line += "said no before, "
	}
	return line + "change at " + due.Change.String()
}

// sayUnmeasured is what the runners last measured, and why that is not enough.
func sayUnmeasured(due Due, zone *time.Location) string {
	if due.WhyNot != "" {
		return sayLast(due, zone) + ": " + due.WhyNot
	}
	return sayLast(due, zone) + ": " + due.CannotSay
}

// sayLast is what the runners last measured: "last left 17.51, right 17.57 on 1 Jan 2026".
func sayLast(due Due, zone *time.Location) string {
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
func sayDueDates(due Due) string {
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
func sayReady(due Due) string {
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
	return strings.Join(sets, ", ")
}

// sayMeasure is when the next height is worth its while.
func sayMeasure(due Due) string {
	switch {
	case due.Measure.InPasses < 1:
		return "now"
	case due.Measure.On.IsZero():
		return fmt.Sprintf("in %.0f passes", due.Measure.InPasses)
	}
	return sayDay(due.Measure.On)
}
