package deeds

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// stream gives random deeds to a desk, and the same to a naive model.
type stream struct {
	*desk
	random   *rand.Rand
	now      time.Time
	players  []inventory.Number
	pairs    []inventory.Number // two a player, the first pair first
	model    naive
	accepted map[string]int
	refused  map[string]int
}

// attempt is one deed: what it is, and what it does to the world if it is accepted.
// Possible is what the model thinks of it; a deed in the past it leaves open.
type attempt struct {
	deed     Deed
	do       func(*world)
	alarm    func(all *[]*alarm, act int, at time.Time)
	undoes   []int
	possible bool
	open     bool
	exact    bool   // it happened at an instant
	also     string // what else it is, to be counted
}

func TestStreamsOfDeedsAgainstANaiveModel(t *testing.T) {
	accepted, refused, streams := map[string]int{}, map[string]int{}, uint64(16)
	if *full {
		streams = 160
	}
	for seed := range streams {
		s := newStream(t, seed)
		for step := range 260 {
			s.step(step)
		}
		for _, total := range []struct{ all, one map[string]int }{{accepted, s.accepted}, {refused, s.refused}} {
			for kind, count := range total.one {
				total.all[kind] += count
			}
		}
	}
	for _, kind := range []string{"StockIn", "MakeSet", "PutSetIn", "TakeOut", "ChangeSteel", "TakeRunnerOut", "RivetOn", "RivetOff", "Grind", "ReportDamage", "Undo", "CallEmergency", "EndEmergency", "CloseEmergency", "Inspect", "GiveRole"} {
		if accepted[kind] < 10 || kind != "StockIn" && kind != "ReportDamage" && refused[kind] < 5 {
			t.Errorf("%s was accepted %d times and refused %d times: that tries too little", kind, accepted[kind], refused[kind])
		}
	}
	if accepted[forTheMoment] < 500 || accepted[secondBreakage] < 10 {
		t.Errorf("somebody was on another pair for the moment at %d instants, and it broke %d times: that tries too little", accepted[forTheMoment], accepted[secondBreakage])
	}
}

func newStream(t *testing.T, seed uint64) *stream {
	s := &stream{
		desk: openBook(t), random: rand.New(rand.NewPCG(seed, 5)), now: at(t, "2 09:00"),
		model: naive{pairs: map[inventory.Number][]inventory.Number{}, since: at(t, opening)}, accepted: map[string]int{}, refused: map[string]int{},
	}
	for _, name := range []string{"Bo Quillon", "Ida Sund"} {
		player := s.give(AddPlayer{Name: name, Position: "forward"})
		usual := 5
		s.do(opening, NoteSpecs{player, inventory.Specs{Passes: &usual}})
		s.players = append(s.players, player)
		pairs := []inventory.Number{s.give(AddPair{player, "first"}), s.give(AddPair{player, "spare"})}
		s.pairs = append(s.pairs, pairs...)
		s.model.pairs[player] = pairs
	}
	for range 3 {
		s.give1(s.stockHolders(inventory.Left), at(t, opening))
		s.give1(s.stockHolders(inventory.Right), at(t, opening))
	}
	for i, n := range s.model.worldAt(at(t, opening)).holderNumbers()[:4] { // the first player has both of his pairs
		pair := s.pairs[i/2]
		s.give1(attempt{deed: RivetOn{Holder: n, Pair: pair}, possible: true, do: func(w *world) { w.rivetOn(n, pair) }}, at(t, opening))
	}
	s.give1(s.stockRunners(8), at(t, opening))
	return s
}

// give1 makes an attempt that must be accepted.
func (s *stream) give1(a attempt, when time.Time) {
	s.t.Helper()
	if !s.attempt(a, inventory.At(when)) {
		s.t.Fatalf("%T was refused", a.deed)
	}
}

// step makes one random attempt, now or in the past, and compares both worlds.
func (s *stream) step(step int) {
	s.t.Helper()
	s.now = s.now.Add(time.Duration(s.random.IntN(3)) * time.Hour)
	happened := inventory.At(s.now)
	late := s.random.IntN(5) == 0
	if late {
		happened = s.earlier()
	}
	w := s.model.worldAt(happened.Start)
	a := s.choose(w)
	if a.exact {
		happened = inventory.At(happened.Start)
	}
	a.open = a.open || late
	before := ""
	if step%8 == 0 {
		before = snapshot(s.t, &s.Ledger)
	}
	ok := s.attempt(a, happened)
	if !ok && before != "" && snapshot(s.t, &s.Ledger) != before {
		s.t.Fatalf("step %d: %T was refused and changed the record", step, a.deed)
	}
	s.compare(s.now)
	s.compare(happened.Start)
	s.compare(s.earlier().Start)
	if step%16 == 0 {
		s.refold()
	}
	if step%everySo(32) == 0 {
		asks(s.t, fmt.Sprintf("step %d: %T", step, a.deed), &s.Ledger, s.now, s.earlier().Start, theNow)
	}
	if s.t.Failed() {
		s.t.Fatalf("after step %d: %T %s at %s, accepted %v", step, a.deed, inventorytest.AsJSON(s.t, a.deed), inventorytest.AsJSON(s.t, happened), ok)
	}
}

// earlier is a time in the past: an instant, or a whole day.
func (s *stream) earlier() inventory.When {
	since := at(s.t, opening)
	then := since.Add(time.Duration(s.random.Int64N(int64(s.now.Sub(since)))).Truncate(time.Minute))
	if s.random.IntN(4) == 0 {
		day := then.Truncate(24 * time.Hour)
		return inventory.Between(day, day.AddDate(0, 0, 1))
	}
	return inventory.At(then)
}

// attempt gives a deed to the desk and, if it is accepted, to the model.
func (s *stream) attempt(a attempt, happened inventory.When) bool {
	s.t.Helper()
	kind := fmt.Sprintf("%T", a.deed)[len("deeds."):]
	outcome, err := a.deed.Decide(&s.Ledger, Moment{happened, theNow})
	if !a.open && (err == nil) != a.possible {
		s.t.Fatalf("%s %s at %s: the model says %v, the decision: %v", kind, inventorytest.AsJSON(s.t, a.deed), inventorytest.AsJSON(s.t, happened), a.possible, err)
	}
	if err != nil {
		s.refused[kind]++
		return false
	}
	s.accepted[kind]++
	s.accepted[a.also]++
	events := s.note(outcome.Drafts...)
	s.model.done = append(s.model.done, naiveAct{happened.Start, a.do, a.alarm, a.undoes, events})
	return true
}

// refold adds the same events to an empty record in another order.
func (s *stream) refold() {
	s.t.Helper()
	var events []inventory.Event
	for _, i := range s.random.Perm(len(s.Events())) {
		events = append(events, *s.Events()[i])
	}
	var again inventory.Ledger
	again.Add(events...)
	if snapshot(s.t, &again) != snapshot(s.t, &s.Ledger) {
		s.t.Error("in another order the events come to another state")
	}
}
