// Package openwork tells what waits for a person; pure.
package openwork

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/sparepair"
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
		item.Hint = "steeltally emergency done " + inventory.Typed(w.v, player, w.v.At)
		if done := crisis.Value.Done; done != nil {
			item.What = fmt.Sprintf("%s, %s side: mended for the moment only (%s)", who(player, w.v.At), crisis.Value.Side, done.Value.Did)
			item.Hint = "steeltally emergency close " + inventory.Typed(w.v, player, w.v.At) + " when it is mended for good"
		}
		w.add(item)
	}
}

// suspects adds pieces that came off after an emergency and nobody has looked at since.
func (w *worklist) suspects(player *inventory.Player) {
	for _, crisis := range player.Crises.Until(w.v.At) {
		for _, n := range crisis.Value.Suspects {
			listed := slices.ContainsFunc(w.items, func(i Item) bool { return i.About == n && i.Sort == WorkSuspect })
			ours := inventory.MarksOf(w.v, n).CustodyAt(w.v.At).Ours()
			if listed || !ours || standing.SafetyOf(w.v, n, w.v.At) != standing.Suspect {
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

// player adds what waits for one player. Of who has left it is emergencies, and what came off in
// them and stayed with the club.
func (w *worklist) player(player *inventory.Player) {
	w.emergencies(player)
	if player.Gone || player.Name == "" {
		w.suspects(player)
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
	spare := sparepair.SparePair(w.v, player)
	causes := slices.DeleteFunc(spare.Causes, func(c sparepair.Cause) bool { return c.Fix == sparepair.FixGrind && spare.Ground.Never })
	if spare.State != sparepair.Fixable || len(causes) == 0 || causes[0].Fix == sparepair.FixFirst {
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
			item.Hint = "steeltally grind " + inventory.Typed(w.v, player, w.v.At)
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
		Hint: "steeltally change " + inventory.Typed(w.v, player, w.v.At) + " SET, or steeltally refuse " + inventory.Typed(w.v, player, w.v.At) + " --until DATE",
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
			What: fmt.Sprintf("%s was called up: ask about %s", who(player, w.v.At), strings.Join(ask, ", ")),
			Hint: "steeltally specs " + inventory.Typed(w.v, player, w.v.At) + " --hollow …, or enter his pair",
		})
	}
}

// away adds pieces that should be back, and those that are back and were not looked at
// or measured yet.
func (w *worklist) away() {
	late, back := map[inventory.Custody][]inventory.Number{}, map[string][]inventory.Number{}
	var lateOrder []inventory.Custody
	var backOrder []string
	for _, n := range inventory.OnceAway(w.v) {
		custody := inventory.MarksOf(w.v, n).CustodyAt(w.v.At)
		if !custody.Ours() && !custody.Due.Unknown() && custody.Due.End.Before(w.v.At) {
			if late[custody] == nil {
				lateOrder = append(lateOrder, custody)
			}
			late[custody] = append(late[custody], n)
		}
		if what := w.opens(n); what != "" {
			if back[what] == nil {
				backOrder = append(backOrder, what)
			}
			back[what] = append(back[what], n)
		}
	}
	for _, custody := range lateOrder {
		w.late(custody, late[custody])
	}
	for _, what := range backOrder {
		w.add(Item{Sort: WorkReturned, About: back[what][0], What: sparepair.Pieces(back[what]) + " " + what, Hint: "steeltally inspect, steeltally measure"})
	}
}

// late adds what is overdue, with what was promised.
func (w *worklist) late(custody inventory.Custody, about []inventory.Number) {
	item := Item{Sort: WorkOverdue, About: about[0], Since: custody.Due}
	item.What = fmt.Sprintf("%s %s, due %s", sparepair.Pieces(about), custody, custody.Due.SayDay(inventory.ClubOf(w.v).Location()))
	item.Hint = "steeltally custody back when it is here"
	switch custody.Decision {
	case inventory.DecisionReplace, inventory.DecisionCredit, inventory.DecisionRepair:
		item.What += ": " + string(custody.Decision) + " promised"
		item.Hint = "steeltally custody answer settled when it came"
	case "", inventory.DecisionOpen:
		if custody.Custody == inventory.CustodyMaker {
			item.What += ", no answer yet"
		}
	}
	w.add(item)
}

// opens tells what a piece that came back waits for; nothing where all is done.
func (w *worklist) opens(n inventory.Number) string {
	marks := inventory.MarksOf(w.v, n)
	back, from, ok := marks.CameBack(w.v.At)
	if !ok || !standing.Skateable(w.v, w.v.At, n) {
		return ""
	}
	looked := false
	for _, look := range marks.Inspected.Until(w.v.At) {
		looked = looked || look.Value.Sound && !look.When.Start.Before(back.Start)
	}
	runner, err := inventory.FindRunner(w.v, n)
	measured := err != nil
	for i := 0; !measured && i < len(runner.Readings.Until(w.v.At)); i++ {
		measured = !runner.Readings[i].When.Start.Before(back.Start)
	}
	if n.Kind() == inventory.KindSet || looked && measured {
		return ""
	}
	since := fmt.Sprintf("back (was %s): ", from)
	switch {
	case looked:
		return since + "measure"
	case measured:
		return since + "look at it"
	}
	return since + "look at it, measure"
}
