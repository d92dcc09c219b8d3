package cli

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/demo"
	"steeltally/inventory"
)

// toTell are the facts that each output has to tell; one that stops telling of one is found.
func toTell() map[string][]fact {
	piece := []fact{factState, factSafety, factPlace, factPair, factHeight}
	due := []fact{factPair, factSafety, factHeight, factSteelOn, urgencyIn("due")}
	return map[string][]fact{
		"history": piece, "due": append(due, factState, factPlace), "spares": piece, "spares --worst": append(piece, urgencyIn("spares")),
		"work": piece, "custody list": piece, "review": piece, "trip manifest": piece, "clearout": {factPlace, factSafety}, "trip roster": {factState},
		"trip short": {factSafety, factPlace}, "claim": {factState, factSafety, factPlace, factPair}, "set list": {factState, factSafety, factPlace, factPair},
		"player list": {factPair, factSteelOn}, "emergency": {factPair, factSafety},
		"the board": {factSteelOn}, "the bench": {factPair, factSafety, factState, factPlace, factHeight, factSteelOn}, "what to do in an emergency": {factSafety},
		"the card of a set": {factState, factPlace, factHeight}, "the card of a runner": {factState, factSafety}, "the card of a holder": {factSafety},
		"the screen of a runner": {factState, factSafety}, "the screen of a holder": {factState, factSafety}, "the screen of a set": {factState, factSafety}, "the screen of a pair": {factSafety},
		"the screen of what is due": due, "the screen of the spare pairs": {factState, factPlace, urgencyIn("spares")}, "the screen of a trip": {factPlace},
	}
}

// gather asks every output how things stand, of some players and pieces where it is asked of
// each; at another instant than now the screen can't be asked.
func (a *asker) gather(w *window, players, pieces []inventory.Number, at ...string) (all []*telling) {
	a.t.Helper()
	a.reading(func(v inventory.View) { w.who = namesOf(v, a.instant(at)) })
	for name, r := range readings() {
		for _, line := range r.lines(w.who, players, pieces) {
			code, object := a.run(append(slices.Clone(line), at...)...)
			if code != exitDone {
				continue
			}
			t := newTelling(strings.Join(line[:len(strings.Fields(name))], " "))
			t.read(object)
			r.tells(t, object, w.who)
			all = append(all, t)
		}
	}
	if len(at) == 0 {
		all = append(all, w.look(players, pieces)...)
	}
	return all
}

func (a *asker) instant(at []string) time.Time {
	if len(at) == 0 {
		return a.now
	}
	when, err := time.Parse(time.RFC3339, at[1])
	if err != nil {
		a.t.Fatal(err)
	}
	return when
}

// judge finds what outputs contradict each other in, are silent about, or list in another
// order than that of urgency.
func judge(all []*telling) (wrong []string) {
	var claims []claim
	for _, t := range all {
		claims = append(claims, t.claims...)
		wrong = append(append(wrong, t.silences()...), t.disorder...)
	}
	return append(wrong, contradictions(claims)...)
}

// ears count what was told, of many books at the same time.
type ears struct {
	sync.Mutex
	told     map[string]map[fact]int
	instants int
}

func (e *ears) hear(all []*telling) {
	e.Lock()
	defer e.Unlock()
	e.instants++
	for _, t := range all {
		if e.told[t.output] == nil {
			e.told[t.output] = map[fact]int{}
		}
		for _, c := range t.claims {
			e.told[t.output][c.fact]++
		}
	}
}

// lacks are the outputs that never told of a fact that they have to tell.
func (e *ears) lacks() (missing []string) {
	for output, facts := range toTell() {
		for _, f := range facts {
			if e.told[output][f] == 0 {
				missing = append(missing, fmt.Sprintf("%s tells nothing of the %s of anything", output, f))
			}
		}
	}
	return missing
}

// A club is given so many deeds before it begins anew, and is asked after each of them, and
// after some at another instant, too.
const (
	stepsOfStream    = 24
	stepsToElsewhen  = 4
	instantsOfStream = stepsOfStream + stepsOfStream/stepsToElsewhen
)

// agree asks at so many instants of random streams of deeds and of a demonstration's book.
func agree(t *testing.T, instants int) {
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	first, e := newStream(t, 1), &ears{told: map[string]map[fact]int{}}
	ofDemo := max(2, instants/100)
	t.Run("books", func(t *testing.T) {
		for seed := range uint64((instants - ofDemo + instantsOfStream - 1) / instantsOfStream) {
			t.Run(fmt.Sprint(seed), func(t *testing.T) {
				t.Parallel()
				first.aged(t, seed).agrees(e)
			})
		}
		t.Run("demo", func(t *testing.T) {
			t.Parallel()
			demoAgrees(t, ofDemo, e)
		})
	})
	for _, missing := range e.lacks() {
		t.Error(missing)
	}
	t.Logf("asked at %d instants", e.instants)
	if e.instants < instants && !t.Failed() {
		t.Errorf("asked at %d instants only", e.instants)
	}
}

// agrees gives deeds to a club, and asks after each; after every fourth also of an instant
// before.
func (s *stream) agrees(e *ears) {
	w := s.window()
	for step := range stepsOfStream {
		line, object, told := s.step()
		_, pieces := s.pick(s.Rand, 1)
		players := s.numbers(inventory.KindPlayer)
		players = players[step%len(players):][:1]
		all := s.gather(w, players, pieces)
		if told && !slices.Contains(line, "--at") {
			all = append(all, afterDeed(line, object))
		}
		s.judged(fmt.Sprintf("after %q", line), all, e)
		if step%stepsToElsewhen == stepsToElsewhen-1 {
			at := s.now.Add(-time.Duration(1+s.IntN(300)) * time.Hour).Format(time.RFC3339)
			s.judged("at "+at, s.gather(w, players, pieces, "--at", at), e)
		}
		if s.t.Failed() {
			return
		}
	}
}

func (a *asker) judged(when string, all []*telling, e *ears) {
	a.t.Helper()
	e.hear(all)
	for _, wrong := range judge(all) {
		a.t.Errorf("%s: %s", when, wrong)
	}
}

// afterDeed is what a verb that recorded something tells of how things stand now; what it
// only made need not be told of.
func afterDeed(line []string, object map[string]any) *telling {
	t := newTelling(line[0])
	t.read(object)
	t.named = nil
	if line[0] == "emergency" && object["pair"] != nil && !slices.Contains(line, "--pair") {
		tellsAlarm(t, object)
	}
	return t
}

// demoAgrees asks of a demonstration's book at random instants, the last one being now.
func demoAgrees(t *testing.T, instants int, e *ears) {
	end := time.Date(2026, 2, 20, 0, 0, 0, 0, time.UTC)
	a := &asker{t: t, book: filepath.Join(t.TempDir(), "book"), now: end.Add(9 * time.Hour)}
	summary, err := demo.Write(context.Background(), a.book, demo.Options{Seed: 3, End: end, Events: 1})
	if err != nil {
		t.Fatal(err)
	}
	r, w := rand.New(rand.NewPCG(5, 3)), a.window()
	for i := range instants {
		players, pieces := a.pick(r, 1)
		if i == 0 {
			a.judged("now", a.gather(w, players, pieces), e)
			continue
		}
		at := summary.Begin.Add(time.Duration(r.Int64N(int64(end.Sub(summary.Begin))))).Format(time.RFC3339)
		a.judged("at "+at, a.gather(w, players, pieces, "--at", at), e)
	}
}

// aged is a copy of a stream's club, with another stream of chance.
func (s *stream) aged(t testing.TB, seed uint64) *stream {
	c := *s
	c.t, c.book = t, filepath.Join(t.TempDir(), "book")
	if err := os.CopyFS(c.book, os.DirFS(s.book)); err != nil {
		t.Fatal(err)
	}
	c.Rand = rand.New(rand.NewPCG(seed, 41))
	return &c
}

// Whatever was done, two outputs never contradict each other: each piece, set, pair and
// player has one state, one safety, one place, one pair and one height in all of them, and
// lists are in order of urgency.
func TestTwoOutputsNeverDisagree(t *testing.T) { agree(t, 60) }
