package cli

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"

	"steeltally/inventory"
)

// factSteelOn is whether a player has steel on the pair that he skates on.
const factSteelOn fact = "steel on"

// names are who and what the words of outputs stand for: a letter, a role, a side. What is
// told of them is not among it.
type names struct {
	players map[inventory.Number]player
	bySweat map[string]inventory.Number
	seats   map[inventory.Number]map[string]inventory.Number // the runner on a pair's side
	setOn   map[inventory.Number]inventory.Number            // by pair
	sets    map[inventory.Number]*inventory.Set
	models  []string
	trips   []string
	trunks  map[string]inventory.Number
}

type player struct {
	letters map[string]inventory.Number
	pairs   map[string]inventory.Number // by role
}

// namesOf reads them as they are at an instant.
func namesOf(v inventory.View, at time.Time) names {
	who := names{map[inventory.Number]player{}, map[string]inventory.Number{}, map[inventory.Number]map[string]inventory.Number{}, map[inventory.Number]inventory.Number{}, map[inventory.Number]*inventory.Set{}, nil, nil, map[string]inventory.Number{}}
	v.Each(inventory.KindSet, func(n inventory.Number, e inventory.Entity) bool {
		who.sets[n] = e.(*inventory.Set)
		return true
	})
	v.Each(inventory.KindPair, func(n inventory.Number, e inventory.Entity) bool {
		pair := e.(*inventory.Pair)
		who.seats[n], who.setOn[n] = map[string]inventory.Number{}, pair.SetAt(at)
		for _, side := range inventory.Sides() {
			who.seats[n][string(side)] = pair.SeatAt(side, at).Runner
		}
		return true
	})
	v.Each(inventory.KindTrunk, func(n inventory.Number, e inventory.Entity) bool {
		who.trunks[e.(*inventory.Container).Name] = n
		return true
	})
	for _, member := range inventory.RosterOf(v).Members {
		if p, err := inventory.PlayerOf(v, member.Player); err == nil {
			who.add(v, p, at)
		}
	}
	v.Each(inventory.KindHolder, func(_ inventory.Number, e inventory.Entity) bool {
		if model := e.(*inventory.Holder).Model; !slices.Contains(who.models, model) {
			who.models = append(who.models, model)
		}
		return true
	})
	for _, trip := range inventory.TripList(v) {
		who.trips = append(who.trips, trip.Name)
	}
	return who
}

func (who names) add(v inventory.View, p *inventory.Player, at time.Time) {
	one := player{map[string]inventory.Number{}, map[string]inventory.Number{}}
	for _, lettered := range p.Sets {
		one.letters[lettered.Letter] = lettered.Set
	}
	for _, role := range inventory.Roles() {
		if pair, err := inventory.PairInRole(v, p, role, at); err == nil {
			one.pairs[string(role)] = pair.Number
		}
	}
	who.players[p.Number] = one
	if sweater := p.Sweater(at); sweater != 0 && !p.Gone {
		who.bySweat[strconv.Itoa(sweater)] = p.Number
	}
}

// reading is how a verb is asked, of some players and pieces where it is asked of each, and
// what else than its objects it tells.
type reading struct {
	lines func(who names, players, pieces []inventory.Number) [][]string
	tells func(t *telling, o map[string]any, who names)
}

// readings are the verbs that tell how things stand.
func readings() map[string]reading {
	none := func(*telling, map[string]any, names) {}
	once := func(line ...string) func(names, []inventory.Number, []inventory.Number) [][]string {
		return func(names, []inventory.Number, []inventory.Number) [][]string { return [][]string{line} }
	}
	each := func(of func(names) []string, verb ...string) func(names, []inventory.Number, []inventory.Number) [][]string {
		return func(who names, _, _ []inventory.Number) (lines [][]string) {
			for _, one := range of(who) {
				lines = append(lines, append(slices.Clone(verb), one))
			}
			return lines
		}
	}
	trips := func(who names) []string { return who.trips }
	return map[string]reading{
		"due":            {once("due"), tellsDue},
		"spares":         {once("spares"), tellsSpares},
		"spares --worst": {once("spares", "--worst"), tellsWorst},
		"work":           {once("work"), tellsWork},
		"custody list":   {once("custody", "list"), none},
		"clearout":       {once("clearout"), tellsLying},
		"player list":    {once("player", "list"), tellsPlayers},
		"review":         {once("review"), none},
		"trip roster":    {each(trips, "trip", "roster"), tellsRoster},
		"trip short":     {each(trips, "trip", "short"), none},
		"trip manifest":  {each(trips, "trip", "manifest"), none},
		"claim":          {each(func(who names) []string { return who.models }, "claim", "--model"), none},
		"set list": {func(_ names, players, _ []inventory.Number) (lines [][]string) {
			for _, n := range players {
				lines = append(lines, []string{"set", "list", n.String(), "--all"})
			}
			return lines
		}, none},
		"history": {func(_ names, _, pieces []inventory.Number) (lines [][]string) {
			for _, n := range pieces {
				lines = append(lines, []string{"history", n.String()})
			}
			return lines
		}, none},
	}
}

// recording are the verbs that record something and tell of pieces: the stream gives them.
var recording = []string{"grind", "measure", "change", "in", "out", "damage", "inspect", "emergency", "emergency done", "emergency close", "put", "rivet on", "rivet off",
	"custody to", "custody back", "custody answer", "trip pack", "trip load", "trip back", "set add", "refuse", "pair role", "pair promote", "pair pitch", "tried", "skated", "scrap", "callup", "undo", "trade", "stockin runner", "stockin holder", "tag"}

// silent are the verbs that tell of no piece how it stands.
var silent = []string{"init", "club", "clock", "clock right", "clock set", "printer", "printer add", "printer list", "printer remove", "printer calibrate", "template", "template list", "template check", "template new",
	"sheet", "sheet list", "sheet check", "verify", "backup", "rebuild", "merge", "setaside", "setaside take", "setaside drop", "export", "import", "demo", "read", "model", "model add", "game", "game add", "game list", "game import",
	"specs", "player", "player add", "player set", "pair", "pair add", "set", "rivet", "custody", "stockin", "stockin trunk", "stockin bin", "spares rules", "trip", "trip add", "trip list", "trip kit", "trip kits", "buylist", "calc", "calc contact", "calc edge", "calc hollow", "calc lean",
	"calc pitch", "calc profile", "calc strength", "calc table", "calc table hollow", "calc table hollow", "scan", "station", "found"}

// Every verb is asked, recording or known to be silent: a new one can't escape.
func TestEveryVerbIsAskedWhetherItAgrees(t *testing.T) {
	known := map[string]bool{}
	for verb := range readings() {
		known[verb] = true
	}
	for _, verb := range slices.Concat(recording, silent) {
		known[verb] = true
	}
	root := (&app{}).root()
	var walk func(*cobra.Command)
	walk = func(cmd *cobra.Command) {
		verb := strings.TrimPrefix(cmd.CommandPath(), root.Name()+" ")
		if cmd != root && !known[verb] {
			t.Errorf("it is not known whether %q tells how pieces stand", verb)
		}
		delete(known, verb)
		for _, sub := range cmd.Commands() {
			walk(sub)
		}
	}
	walk(root)
	delete(known, "spares --worst")
	for verb := range known {
		t.Errorf("there is no verb %q", verb)
	}
}

// tellsDue is the order of factUrgency, and of each set on which pair it is and whether that may
// be skated on.
func tellsDue(t *telling, o map[string]any, who names) {
	var list []inventory.Number
	for _, due := range listOf(o, "players") {
		n := numberOf(due["player"])
		list = append(list, n)
		pair := who.players[n].pairs[textOf(due, "pair")]
		t.claim(n, factPair, pair.String())
		t.claim(n, factSteelOn, "true")
	}
	t.ranked("due", list)
	var ranks []float64
	for _, due := range listOf(o, "players") {
		ranks = append(ranks, rankOfDue(due))
	}
	t.ordered("due", ranks)
	for _, due := range append(listOf(o, "players"), listOf(o, "others")...) {
		pair := who.players[numberOf(due["player"])].pairs[textOf(due, "pair")]
		t.claim(pair, factSafety, strconv.FormatBool(due["standing"] == "do-not-skate"))
		t.claim(numberOf(due["set_number"]), factPair, pair.String())
	}
}

// rankOfDue is how soon a set is to be changed: cracked steel before all, then what is the
// furthest below its change height.
func rankOfDue(due map[string]any) float64 {
	rank := float64(100 * slices.Index([]string{"do-not-skate", "due-now", "coming-up", "measure-first", "can't-say", "said-no"}, textOf(due, "standing")))
	change, known := due["change_height_mm"].(float64)
	if due["standing"] != "due-now" || !known {
		return rank
	}
	least := 0.0
	for _, side := range listOf(due, "sides") {
		if now, told := side["height_now_mm"].(float64); told {
			least = min(least, now-change)
		}
	}
	return rank + least
}

func tellsSpares(t *telling, o map[string]any, who names) {
	for _, line := range listOf(o, "players") {
		n, pair := numberOf(line["number"]), numberOf(line["pair"])
		t.claim(n, factState, textOf(line, "state"))
		if line["error"] != nil || pair == 0 {
			continue
		}
		t.whole(pair, line)
		t.whole(numberOf(line["first_pair"].(map[string]any)["pair"]), line["first_pair"].(map[string]any))
		first := numberOf(line["first_pair"].(map[string]any)["pair"])
		compared := line["compared"].(map[string]any)
		for _, side := range inventory.Sides() {
			for key, on := range map[string]inventory.Number{"height_mm": pair, "height_first_pair_mm": first} {
				if value := compared[key].(map[string]any)[string(side)]; value != nil {
					t.high(who.seats[on][string(side)], value, lengthDigits)
				}
			}
		}
	}
}

// whole claims of a pair what a line tells of it beside its player.
func (t *telling) whole(pair inventory.Number, o map[string]any) {
	if unsafe, told := o["do_not_skate"].(bool); told {
		t.claim(pair, factSafety, strconv.FormatBool(unsafe))
	}
	if where, told := o["place"].(string); told {
		t.claim(pair, factPlace, where)
	}
}

func tellsWorst(t *telling, o map[string]any, who names) {
	var list []inventory.Number
	for _, line := range listOf(o, "players") {
		list = append(list, numberOf(line["number"]))
	}
	t.ranked("spares", list)
	var ranks []float64
	for _, line := range listOf(o, "players") {
		minutes, _ := line["minutes_all"].(float64)
		ranks = append(ranks, float64(1000*slices.Index([]string{"missing", "fix", "declined", "ready"}, textOf(line, "state")))-minutes)
	}
	t.ordered("spares --worst", ranks)
	tellsSpares(t, o, who)
}

// tellsWork says of what is unsafe or to be looked at that nobody may skate on it.
func tellsWork(t *telling, o map[string]any, _ names) {
	var ranks []float64
	for _, item := range listOf(o, "work") {
		ranks = append(ranks, float64(slices.IndexFunc(workSections[:], func(s struct{ sort, heading string }) bool { return s.sort == textOf(item, "sort") })))
		if item["sort"] == "unsafe" {
			t.claim(numberOf(item["about"]), factSafety, "true")
		}
	}
	t.ordered("work", ranks)
}

// tellsLying says where things lie, and that what is usable is sound.
func tellsLying(t *telling, o map[string]any, _ names) {
	for _, lying := range listOf(o, "places") {
		for _, key := range []string{"done_with", "usable"} {
			list, _ := lying[key].([]any)
			for _, one := range list {
				n := cmp.Or(numberOf(one), numberIn(one))
				t.claim(n, factPlace, textOf(lying, "place"))
				if key == "usable" {
					t.claim(n, factSafety, "false")
				}
			}
		}
	}
}

func numberIn(one any) inventory.Number {
	o, _ := one.(map[string]any)
	return numberOf(o["number"])
}

func tellsPlayers(t *telling, o map[string]any, who names) {
	for _, line := range listOf(o, "players") {
		n := numberOf(line["number"])
		letter := textOf(line, "set_on")
		t.claim(n, factSteelOn, strconv.FormatBool(letter != ""))
		if set := who.players[n].letters[letter]; letter != "" {
			for pair, on := range who.setOn {
				if on == set {
					t.claim(n, factPair, pair.String())
				}
			}
		}
	}
}

func tellsRoster(t *telling, o map[string]any, _ names) {
	for _, line := range listOf(o, "players") {
		t.claim(numberOf(line["number"]), factState, textOf(line, "spare_pair"))
	}
}

// tellsAlarm says which pair it is about, and what of it nobody may skate on.
func tellsAlarm(t *telling, o map[string]any) {
	t.claim(numberOf(o["player"]), factPair, textOf(o, "pair"))
	list, _ := o["unsafe"].([]any)
	for _, one := range list {
		t.claim(cmp.Or(numberOf(one), numberIn(one)), factSafety, "true")
	}
}
