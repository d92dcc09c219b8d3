package travel

import (
	"fmt"
	"slices"

	"steeltally/inventory"
)

// flags adds what the record is unsure of, each pair of entries once: two entries that
// contradict each other are flagged on every piece that they name.
func (w *worklist) flags() {
	w.conflicts(inventory.ClubOf(w.v).Flags())
	w.conflicts(inventory.Flags(w.v))
	w.clocks()
}

// clocks adds what was noted under a clock in doubt, all in one: a person settles it at
// once.
func (w *worklist) clocks() {
	open := inventory.ClocksOf(w.v).Open()
	if len(open) == 0 {
		return
	}
	zone, latest := inventory.ClubOf(w.v).Location(), open[len(open)-1]
	item := Item{Sort: WorkClock, Hint: "was it right: steeltally clock right; was it wrong: steeltally clock set --was TIME"}
	item.What = fmt.Sprintf("from entry %s on a machine's clock said %s; the entry before was noted on %s", latest.Entry, latest.Noted.Say(zone), latest.Last.Say(zone))
	if more := len(open) - 1; more > 0 {
		item.What += fmt.Sprintf(" (and %d more: steeltally clock shows them)", more)
	}
	for _, doubt := range open {
		item.Keys = append(item.Keys, doubt.Entry)
	}
	w.add(item)
}

func (w *worklist) conflicts(flags []inventory.Flag) {
	for _, flag := range flags {
		if slices.ContainsFunc(w.items, func(i Item) bool { return i.Sort == WorkConflict && slices.Equal(i.Keys, flag.Keys) }) {
			continue
		}
		item := Item{Sort: WorkConflict, About: flag.About, What: flag.What, Keys: flag.Keys}
		if flag.About != 0 {
			item.What = flag.About.Short() + ": " + flag.What
			item.Hint = "steeltally history " + flag.About.Short()
		}
		if len(flag.Keys) == 2 {
			item.Hint = fmt.Sprintf("steeltally undo %s or %s; are both right: steeltally undo %s %s --both-right", flag.Keys[0], flag.Keys[1], flag.Keys[0], flag.Keys[1])
		}
		w.add(item)
	}
}
