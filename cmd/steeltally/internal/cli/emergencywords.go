package cli

import (
	"cmp"
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
	for i, way := range rescue.Ways() {
		a.voice.say("%d  %s  %s: %s", i+1, way.Clock(), way.Text, cmp.Or(way.Place, "place not known"))
		a.voice.say("         %s", sayShort(way.Numbers))
		if len(way.OrElse) > 0 {
			a.voice.say("         or %s, the same", sayShort(way.OrElse))
		}
		if len(way.Lacks) > 0 {
			a.voice.say("         but: %s", strings.Join(way.Lacks, "; "))
		}
	}
}

// sayShort writes numbers in their form for people.
func sayShort(numbers []inventory.Number) string {
	short := make([]string, len(numbers))
	for i, n := range numbers {
		short[i] = n.Short()
	}
	return strings.Join(short, " ")
}
