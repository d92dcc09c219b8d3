package travel

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"steeltally/inventory"
)

// sameWord tells whether two words are the same to a person.
func sameWord(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// listed writes words one after the other.
func listed(words []string) string { return strings.Join(words, ", ") }

const mostNamed = 5

// pieces names a few pieces, or the first and how many there are.
func pieces(numbers []inventory.Number) string {
	if len(numbers) > mostNamed {
		return fmt.Sprintf("%d pieces (%s, …)", len(numbers), numbers[0].Short())
	}
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = n.Short()
	}
	return strings.Join(words, ", ")
}

// typed is how a player is named on a command line: by sweater where only he wears it,
// else by number.
func typed(v inventory.View, player *inventory.Player, at time.Time) string {
	sweater := player.Sweater(at)
	if sweater != 0 && len(inventory.RosterOf(v).Wearing(sweater, at)) == 1 {
		return strconv.Itoa(sweater)
	}
	return player.Number.Short()
}
