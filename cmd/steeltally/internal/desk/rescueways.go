package desk

import (
	"fmt"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/travel"
)

// RescueWay is a way back onto the ice, with the pieces that would do as well.
type RescueWay struct {
	RescueOption
	OrElse []inventory.Number
}

// Ways are the ways back, fastest first; those that differ only by which of some like
// pieces is taken are one.
func (r Rescue) Ways() []RescueWay {
	var ways []RescueWay
	for _, option := range r.Options {
		if n := len(ways); n > 0 && alike(ways[n-1].RescueOption, option) {
			ways[n-1].OrElse = append(ways[n-1].OrElse, option.Numbers[0])
			continue
		}
		ways = append(ways, RescueWay{RescueOption: option})
	}
	return ways
}

// Did is the word that the record has for a way.
func (o RescueOption) Did() inventory.Remedy {
	switch o.What {
	case travel.ByPair:
		return inventory.RemedySpare
	case travel.ByHolder:
		return inventory.RemedyHolder
	}
	return inventory.RemedySteel
}

func alike(a, b RescueOption) bool {
	return a.What == b.What && a.Text == b.Text && a.Place == b.Place && a.Seconds == b.Seconds && slices.Equal(a.Lacks, b.Lacks)
}

// Clock is how long a way takes, as a clock shows it: 1:30.
func (o RescueOption) Clock() string { return SayClock(o.Seconds) }

// SayClock is a time in seconds as a clock shows it: 1:30.
func SayClock(seconds int) string { return fmt.Sprintf("%d:%02d", seconds/60, seconds%60) }
