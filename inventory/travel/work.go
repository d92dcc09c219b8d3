package travel

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
)

// Sort is a sort of open work.
type Sort string

// The sorts of open work, what is dangerous first.
const (
	WorkUnsafe    Sort = "unsafe"    // on a boot, and nobody may skate on it
	WorkEmergency Sort = "emergency" // nobody said how it ended, or mended for the moment only
	WorkSuspect   Sort = "suspect"   // may be broken: look
	WorkConflict  Sort = "conflict"  // entries that can't both be right
	WorkOverdue   Sort = "overdue"   // should be back, or answered
	WorkReturned  Sort = "returned"  // is back: look, measure
	WorkAsk       Sort = "ask"       // something that a player has to be asked
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
}

// Work lists everything that waits for a person at an instant. Flags are looked for in
// every piece of the record, so the time it takes grows with the record.
func Work(v inventory.View, at time.Time) []Item {
	w := &worklist{v: v, at: at}
	for _, player := range playersBySweater(v, at) {
		w.player(player)
	}
	w.away()
	w.flags()
	slices.SortStableFunc(w.items, func(a, b Item) int { return slices.Index(sorts(), a.Sort) - slices.Index(sorts(), b.Sort) })
	return w.items
}

// playersBySweater lists everybody whom the record knows, also who has left.
func playersBySweater(v inventory.View, at time.Time) []*inventory.Player {
	var players []*inventory.Player
	for _, member := range inventory.ClubOf(v).Players {
		if player, err := inventory.PlayerOf(v, member.Player); err == nil {
			players = append(players, player)
		}
	}
	slices.SortStableFunc(players, func(a, b *inventory.Player) int { return cmp.Compare(a.Sweater(at), b.Sweater(at)) })
	return players
}

func sorts() []Sort {
	return []Sort{WorkUnsafe, WorkEmergency, WorkSuspect, WorkConflict, WorkOverdue, WorkReturned, WorkAsk, WorkSpare}
}

// worklist gathers open work.
type worklist struct {
	v     inventory.View
	at    time.Time
	items []Item
}

func (w *worklist) add(item Item) { w.items = append(w.items, item) }

// player adds what waits for one player. Who has left has nothing but emergencies.
func (w *worklist) player(player *inventory.Player) {
	w.emergencies(player)
	if player.Gone || player.Name == "" {
		return
	}
	w.unsafe(player)
	w.suspects(player)
	w.refusals(player)
	w.asked(player)
	if spare := SparePair(w.v, player, w.at); spare.State == Fixable {
		cause := spare.Cause()
		w.add(Item{
			Sort: WorkSpare, About: spare.Number, Player: player.Number, Hint: cause.Hint,
			What: fmt.Sprintf("%s: spare pair, %s (%d min)", who(player, w.at), cause.What, cause.Minutes),
		})
	}
}

// who names a player as people call him.
func who(player *inventory.Player, at time.Time) string {
	if sweater := player.Sweater(at); sweater != 0 {
		return fmt.Sprintf("%d %s", sweater, player.Name)
	}
	return player.Name
}

// emergencies adds those of which nobody said how they ended, and what was mended for
// the moment only.
func (w *worklist) emergencies(player *inventory.Player) {
	for _, crisis := range player.OpenCrises(w.at) {
		item := Item{Sort: WorkEmergency, About: crisis.Value.Pair, Player: player.Number, Since: crisis.When, Keys: []inventory.Key{crisis.Event}}
		item.What = fmt.Sprintf("%s, %s side: nobody said how he got back", who(player, w.at), crisis.Value.Side)
		item.Hint = "steeltally emergency done " + typed(w.v, player, w.at)
		if done := crisis.Value.Done; done != nil {
			item.What = fmt.Sprintf("%s, %s side: mended for the moment only (%s)", who(player, w.at), crisis.Value.Side, done.Value.Did)
			item.Hint = "steeltally emergency close " + typed(w.v, player, w.at) + " when it is mended for good"
		}
		w.add(item)
	}
}

// unsafe adds what hangs on a player's pairs and must not be skated on.
func (w *worklist) unsafe(player *inventory.Player) {
	for _, n := range player.Pairs {
		pair, err := inventory.FindPair(w.v, n)
		if err != nil || pair.ScrappedAt(w.at) || pair.Role(w.at) == inventory.RoleKept {
			continue
		}
		for _, piece := range append([]inventory.Number{n}, inventory.PiecesOn(pair, w.at)...) {
			for _, damage := range inventory.MarksOf(w.v, piece).OpenDamages(w.at) {
				w.damage(player, pair, piece, damage)
			}
		}
	}
}

func (w *worklist) damage(player *inventory.Player, pair *inventory.Pair, n inventory.Number, damage inventory.Damaged) {
	marks := inventory.MarksOf(w.v, n)
	item := Item{About: n, Player: player.Number, Sort: WorkUnsafe, Hint: "steeltally out " + n.Short()}
	if n.Kind() == inventory.KindHolder {
		item.Hint = "steeltally rivet off " + n.Short()
	}
	state := "DO NOT SKATE, still on the " + pair.Role(w.at) + " pair"
	switch {
	case !damage.Unsafe:
		item.Sort, state, item.Hint = WorkSuspect, "open", "steeltally inspect "+n.Short()+" when it is mended"
	case !marks.DamagedForGood(w.at):
		item.Sort, state = WorkSuspect, "may be broken: DO NOT SKATE until somebody looked"
		item.Hint = "steeltally inspect " + n.Short() + " if it is sound, steeltally damage " + n.Short() + " --mode crack if not"
	}
	item.What = fmt.Sprintf("%s: %s %s %s, %s", who(player, w.at), n.Short(), damage.Mode, damage.Zone, state)
	w.add(item)
}

// suspects adds pieces that came off after an emergency and nobody has looked at since.
func (w *worklist) suspects(player *inventory.Player) {
	for _, crisis := range player.Crises.Until(w.at) {
		for _, n := range crisis.Value.Suspects {
			marks := inventory.MarksOf(w.v, n)
			listed := slices.ContainsFunc(w.items, func(i Item) bool { return i.About == n && i.Sort == WorkSuspect })
			if listed || !marks.DoNotSkate(w.at) || marks.DamagedForGood(w.at) {
				continue
			}
			w.add(Item{
				Sort: WorkSuspect, About: n, Player: player.Number, Since: crisis.When,
				What: fmt.Sprintf("%s: %s may be broken, it came off in an emergency: DO NOT SKATE until somebody looked", who(player, w.at), n.Short()),
				Hint: "steeltally inspect " + n.Short() + " if it is sound, steeltally damage " + n.Short() + " --mode crack if not",
			})
		}
	}
}

// refusals adds players who would not change and are to be asked again by now, while
// that set is still on.
func (w *worklist) refusals(player *inventory.Player) {
	pair, err := inventory.PairInRole(w.v, player, inventory.RoleFirst, w.at)
	if err != nil {
		return
	}
	refusal, ok := player.RefusalOf(pair.SetAt(w.at), w.at)
	if !ok || pair.SetAt(w.at) == 0 || refusal.Value.Review.After(w.at) {
		return
	}
	w.add(Item{
		Sort: WorkAsk, About: refusal.Value.Set, Player: player.Number, Since: refusal.Value.Review,
		What: fmt.Sprintf("%s would not change (%q): ask again", who(player, w.at), refusal.Value.Answer),
		Hint: "steeltally change " + typed(w.v, player, w.at) + " SET, or steeltally refuse " + typed(w.v, player, w.at) + " --until DATE",
	})
}

// asked adds what nobody knows yet of a player who was called up. A spec that was noted
// since is known.
func (w *worklist) asked(player *inventory.Player) {
	call, ok := player.CalledUpAt(w.at)
	if !ok {
		return
	}
	specs := player.SpecsAt(w.at)
	known := map[string]bool{"hollow": specs.Hollow != nil, "profile": specs.Profile != nil, "pitch": specs.Pitch != nil}
	if pair, err := inventory.PairInRole(w.v, player, inventory.RoleFirst, w.at); err == nil {
		holders := pair.HolderAt(inventory.Left, w.at) != 0 && pair.HolderAt(inventory.Right, w.at) != 0
		known["family"], known["size"], known["steel"] = holders, holders, pair.SetAt(w.at) != 0
	}
	ask := slices.DeleteFunc(slices.Clone(call.Value.Ask), func(word string) bool { return known[word] })
	if len(ask) > 0 {
		w.add(Item{
			Sort: WorkAsk, About: player.Number, Player: player.Number, Since: call.When,
			What: fmt.Sprintf("%s was called up: ask about %s", who(player, w.at), listed(ask)),
			Hint: "steeltally specs " + typed(w.v, player, w.at) + " --hollow …, or enter his pair",
		})
	}
}
