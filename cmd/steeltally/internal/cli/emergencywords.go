package cli

import (
	"fmt"
	"slices"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// sayRescue says what must not be skated on, and the ways back, fastest first.
func (a *app) sayRescue(rescue desk.Rescue) {
	if len(rescue.Unsafe) > 0 {
		a.voice.say("%s, %s side: DO NOT SKATE on %s", rescue.Whose(), rescue.Side, sayShort(rescue.Unsafe))
	}
	if len(rescue.Options) == 0 {
		a.voice.say("nothing in the record fits: look through the trunks, or borrow")
		return
	}
	said := 0
	for i, option := range rescue.Options {
		if i > 0 && alikeOptions(rescue.Options[i-1], option) {
			continue
		}
		said++
		a.voice.say("%d  %s  %s: %s", said, sayClock(option.Seconds), option.Text, orElse(option.Place, "place not known"))
		a.voice.say("         %s", sayShort(option.Numbers))
		var more []inventory.Number
		for _, other := range rescue.Options[i+1:] {
			if alikeOptions(option, other) {
				more = append(more, other.Numbers[0])
			}
		}
		if len(more) > 0 {
			a.voice.say("         or %s, the same", sayShort(more))
		}
		if len(option.Lacks) > 0 {
			a.voice.say("         but: %s", strings.Join(option.Lacks, "; "))
		}
	}
}

// alikeOptions tells whether two ways differ only by which of some like pieces is taken.
func alikeOptions(a, b desk.RescueOption) bool {
	return a.What == b.What && a.Text == b.Text && a.Place == b.Place && a.Seconds == b.Seconds && slices.Equal(a.Lacks, b.Lacks)
}

// sayShort writes numbers in their form for people.
func sayShort(numbers []inventory.Number) string {
	short := make([]string, len(numbers))
	for i, n := range numbers {
		short[i] = n.Short()
	}
	return strings.Join(short, " ")
}

// sayClock is a time as a clock shows it: 1:30.
func sayClock(seconds int) string { return fmt.Sprintf("%d:%02d", seconds/60, seconds%60) }
