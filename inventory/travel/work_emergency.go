package travel

import (
	"fmt"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// emergencies adds those of which nobody said how they ended, and what was mended for
// the moment only.
func (w *worklist) emergencies(player *inventory.Player) {
	for _, crisis := range player.OpenCrises(w.v.At) {
		item := Item{Sort: WorkEmergency, About: crisis.Value.Pair, Player: player.Number, Since: crisis.When, Keys: []inventory.Key{crisis.Event}}
		item.What = fmt.Sprintf("%s, %s side: nobody said how he got back", who(player, w.v.At), crisis.Value.Side)
		item.Hint = "steeltally emergency done " + typed(w.v, player, w.v.At)
		if done := crisis.Value.Done; done != nil {
			item.What = fmt.Sprintf("%s, %s side: mended for the moment only (%s)", who(player, w.v.At), crisis.Value.Side, done.Value.Did)
			item.Hint = "steeltally emergency close " + typed(w.v, player, w.v.At) + " when it is mended for good"
		}
		w.add(item)
	}
}

// suspects adds pieces that came off after an emergency and nobody has looked at since.
func (w *worklist) suspects(player *inventory.Player) {
	for _, crisis := range player.Crises.Until(w.v.At) {
		for _, n := range crisis.Value.Suspects {
			listed := slices.ContainsFunc(w.items, func(i Item) bool { return i.About == n && i.Sort == WorkSuspect })
			if listed || standing.SafetyOf(w.v, n, w.v.At) != standing.Suspect {
				continue
			}
			w.add(Item{
				Sort: WorkSuspect, About: n, Player: player.Number, Since: crisis.When,
				What: fmt.Sprintf("%s: %s may be broken, it came off in an emergency: DO NOT SKATE until somebody looked", who(player, w.v.At), n.Short()),
				Hint: "steeltally inspect " + n.Short() + " if it is sound, steeltally damage " + n.Short() + " --mode crack if not",
			})
		}
	}
}
