package travel

import (
	"cmp"
	"fmt"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Sort is a sort of open work.
type Sort string

// The sorts of open work, what is dangerous first.
const (
	WorkUnsafe    Sort = "unsafe"    // on a boot, and nobody may skate on it
	WorkEmergency Sort = "emergency" // nobody said how it ended, or mended for the moment only
	WorkSuspect   Sort = "suspect"   // may be broken: look
	WorkBare      Sort = "bare"      // a boot of a pair in use that lacks its holder or its runner
	WorkUnworked  Sort = "unworked"  // what waits there can't be told
	WorkConflict  Sort = "conflict"  // entries that can't both be right
	WorkClock     Sort = "clock"     // entries that were noted under a clock in doubt
	WorkOverdue   Sort = "overdue"   // should be back, or answered
	WorkReturned  Sort = "returned"  // is back: look, measure
	WorkAsk       Sort = "ask"       // something that a player has to be asked
	WorkGround    Sort = "ground"    // on, and never ground
	WorkSpare     Sort = "spare"     // a spare pair to be mended first
)

// Item is one thing that waits for a person.
type Item struct {
	Sort   Sort
	About  inventory.Number // zero: the book itself
	Player inventory.Number // zero: nobody's
	What   string
	Hint   string
	Since  inventory.When
	Keys   []inventory.Key

	Unworked *inventory.Unworked // why it can't be told what waits; nil: it can
}

// Work lists everything that waits for a person at an instant.
func Work(v *standing.Now) []Item {
	w := &worklist{v: v}
	for _, player := range playersBySweater(v) {
		w.try(player.Unworked(v.At, nil), func() { w.player(player) })
	}
	w.try(inventory.Unworked{Name: "what is away"}, w.away)
	w.try(inventory.Unworked{Name: "what contradicts itself"}, w.flags)
	slices.SortStableFunc(w.items, func(a, b Item) int { return slices.Index(sorts(), a.Sort) - slices.Index(sorts(), b.Sort) })
	return w.items
}

// playersBySweater lists everybody whom the record knows, also who has left.
func playersBySweater(v *standing.Now) []*inventory.Player {
	var players []*inventory.Player
	for _, member := range inventory.RosterOf(v).Members {
		if player, err := inventory.PlayerOf(v, member.Player); err == nil {
			players = append(players, player)
		}
	}
	slices.SortStableFunc(players, func(a, b *inventory.Player) int { return cmp.Compare(a.Sweater(v.At), b.Sweater(v.At)) })
	return players
}

func sorts() []Sort {
	return []Sort{WorkUnsafe, WorkEmergency, WorkSuspect, WorkBare, WorkUnworked, WorkConflict, WorkClock, WorkOverdue, WorkReturned, WorkAsk, WorkGround, WorkSpare}
}

// try adds what waits somewhere; where that can't be told, this waits.
func (w *worklist) try(whose inventory.Unworked, add func()) {
	if whose.Cause = inventory.Guard(func() error { add(); return nil }); whose.Cause != nil {
		w.add(Item{Sort: WorkUnworked, About: whose.About, Player: whose.About, What: whose.Whose() + ": " + whose.Say(), Hint: whose.Hint(), Unworked: &whose})
	}
}

// worklist gathers open work.
type worklist struct {
	v     *standing.Now
	items []Item
}

func (w *worklist) add(item Item) { w.items = append(w.items, item) }

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
