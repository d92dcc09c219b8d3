package travel

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// player adds what waits for one player. Who has left has nothing but emergencies.
func (w *worklist) player(player *inventory.Player) {
	w.emergencies(player)
	if player.Gone || player.Name == "" {
		return
	}
	w.unsafe(player)
	w.bare(player)
	w.suspects(player)
	w.refusals(player)
	w.asked(player)
	w.neverGround(player)
	w.spare(player)
}

// spare adds what to do first to a spare pair; steel that was never ground is told of already.
func (w *worklist) spare(player *inventory.Player) {
	spare := SparePair(w.v, player)
	causes := slices.DeleteFunc(spare.Causes, func(c Cause) bool { return c.Fix == FixGrind && spare.Ground.Never })
	if spare.State != Fixable || len(causes) == 0 || causes[0].Fix == FixFirst {
		return
	}
	w.add(Item{
		Sort: WorkSpare, About: spare.Number, Player: player.Number, Hint: causes[0].Hint,
		What: fmt.Sprintf("%s: spare pair, %s (%d min)", who(player, w.v.At), causes[0].What, causes[0].Minutes),
	})
}

// neverGround adds steel that is on and was never ground: on the pair that he skates on
// now, and on his spare pair.
func (w *worklist) neverGround(player *inventory.Player) {
	on, _ := standing.SkatesOn(w.v, player, w.v.At)
	for _, n := range player.Pairs {
		pair, err := inventory.FindPair(w.v, n)
		now := on.Pair != nil && on.Number == n
		if err != nil || !now && pair.Role(w.v.At) != inventory.RoleSpare {
			continue
		}
		set, err := inventory.FindSet(w.v, pair.SetAt(w.v.At))
		if err != nil || !standing.NeverGround(set, w.v.At) {
			continue
		}
		item := Item{Sort: WorkGround, About: set.Number, Player: player.Number, Hint: "steeltally grind " + n.Short()}
		if now {
			item.Hint = "steeltally grind " + typed(w.v, player, w.v.At)
		}
		item.What = fmt.Sprintf("%s: set %s on the %s was never ground", who(player, w.v.At), set.Letter, pair.Role(w.v.At).Pair())
		w.add(item)
	}
}

// who names a player as people call him.
func who(player *inventory.Player, at time.Time) string {
	if sweater := player.Sweater(at); sweater != 0 {
		return fmt.Sprintf("%d %s", sweater, player.Name)
	}
	return player.Name
}

// unsafe adds what hangs on a player's pairs and must not be skated on.
func (w *worklist) unsafe(player *inventory.Player) {
	for _, n := range player.Pairs {
		pair, err := inventory.FindPair(w.v, n)
		if err != nil || pair.ScrappedAt(w.v.At) || pair.Role(w.v.At) == inventory.RoleKept {
			continue
		}
		for _, piece := range append([]inventory.Number{n}, inventory.PiecesOn(pair, w.v.At)...) {
			for _, damage := range inventory.MarksOf(w.v, piece).OpenDamages(w.v.At) {
				w.damage(player, pair, piece, damage)
			}
		}
	}
}

// bare adds boots of pairs in use that had a holder and have none, and those without a
// runner whose mate has one.
func (w *worklist) bare(player *inventory.Player) {
	for _, n := range player.Pairs {
		pair, err := inventory.FindPair(w.v, n)
		if err != nil || pair.ScrappedAt(w.v.At) || pair.Role(w.v.At) == inventory.RoleKept {
			continue
		}
		for _, lack := range standing.Lacking(w.v, player, pair, w.v.At) {
			w.add(Item{
				About: n, Player: player.Number, Sort: WorkBare, Hint: lack.Hint,
				What: fmt.Sprintf("%s: the %s boot of the %s pair has no %s", who(player, w.v.At), lack.Side, pair.Role(w.v.At), lack.What),
			})
		}
	}
}

func (w *worklist) damage(player *inventory.Player, pair *inventory.Pair, n inventory.Number, damage inventory.Damaged) {
	item := Item{About: n, Player: player.Number, Sort: WorkUnsafe, Hint: "steeltally out " + n.Short()}
	if n.Kind() == inventory.KindHolder {
		item.Hint = "steeltally rivet off " + n.Short()
	}
	state := "DO NOT SKATE, still on the " + pair.Role(w.v.At).Pair()
	switch {
	case !damage.Unsafe:
		item.Sort, state, item.Hint = WorkSuspect, "open", "steeltally inspect "+n.Short()+" when it is mended"
	case standing.SafetyOf(w.v, n, w.v.At) == standing.Suspect:
		item.Sort, state = WorkSuspect, "may be broken: DO NOT SKATE until somebody looked"
		item.Hint = "steeltally inspect " + n.Short() + " if it is sound, steeltally damage " + n.Short() + " --mode crack if not"
	}
	item.What = fmt.Sprintf("%s: %s %s, %s", who(player, w.v.At), n.Short(), damage.Where(), state)
	w.add(item)
}

// refusals adds players who would not change and are to be asked again by now, while
// that set is still on.
func (w *worklist) refusals(player *inventory.Player) {
	pair, err := inventory.PairInRole(w.v, player, inventory.RoleFirst, w.v.At)
	if err != nil {
		return
	}
	refusal, ok := player.RefusalOf(pair.SetAt(w.v.At), w.v.At)
	if !ok || pair.SetAt(w.v.At) == 0 || refusal.Value.Review.After(w.v.At) {
		return
	}
	w.add(Item{
		Sort: WorkAsk, About: refusal.Value.Set, Player: player.Number, Since: refusal.Value.Review,
		What: fmt.Sprintf("%s would not change (%q): ask again", who(player, w.v.At), refusal.Value.Answer),
		Hint: "steeltally change " + typed(w.v, player, w.v.At) + " SET, or steeltally refuse " + typed(w.v, player, w.v.At) + " --until DATE",
	})
}

// asked adds what nobody knows yet of a player who was called up. A spec that was noted
// since is known.
func (w *worklist) asked(player *inventory.Player) {
	call, ok := player.CalledUpAt(w.v.At)
	if !ok {
		return
	}
	specs := player.SpecsAt(w.v.At)
	known := map[string]bool{"hollow": specs.Hollow != nil, "profile": specs.Profile != nil, "pitch": specs.Pitch != nil}
	if pair, err := inventory.PairInRole(w.v, player, inventory.RoleFirst, w.v.At); err == nil {
		holders := pair.HolderAt(inventory.Left, w.v.At) != 0 && pair.HolderAt(inventory.Right, w.v.At) != 0
		known["family"], known["size"], known["steel"] = holders, holders, pair.SetAt(w.v.At) != 0
	}
	ask := slices.DeleteFunc(slices.Clone(call.Value.Ask), func(word string) bool { return known[word] })
	if len(ask) > 0 {
		w.add(Item{
			Sort: WorkAsk, About: player.Number, Player: player.Number, Since: call.When,
			What: fmt.Sprintf("%s was called up: ask about %s", who(player, w.v.At), listed(ask)),
			Hint: "steeltally specs " + typed(w.v, player, w.v.At) + " --hollow …, or enter his pair",
		})
	}
}
