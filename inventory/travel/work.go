package travel

import (
	"cmp"
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
