package station

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// A monkey works a day at the station, in two windows, with a scanner that now and then
// ends its lines twice or types by another layout, while the station is killed, the
// book is held by another program, answers get lost, windows are closed and loaded anew,
// and the clock is moved. At the end the record has what a plain model has: each grind that
// was meant, once, of the player and at the time that were meant.
func TestADayAtTheStation(t *testing.T) {
	days, lines, team := 3, 250, 6
	if *full {
		days, lines, team = 1, 100_000, 22
	}
	came := map[string]int{}
	for seed := range days {
		m := newMonkey(t, uint64(seed), team)
		for m.machine.lines < lines {
			m.act()
			m.renew()
		}
		m.tidy()
		m.compare()
		t.Logf("day %d: %d lines, %d meant; %v", seed, m.machine.lines, len(m.meant), m.counts)
		for what, count := range m.counts {
			came[what] += count
		}
	}
	for _, what := range []string{"grind", "more", "taken back", "asked", "waited", "dropped", "killed", "held", "answer lost", "window closed", "loaded anew", "clock moved", "line ended twice", "other layout"} {
		if came[what] == 0 {
			t.Errorf("never: %s", what)
		}
	}
}

// meant is a grind that a person meant.
type meant struct {
	key         string // of its line
	player      string
	left, right int
	at          time.Time
	void        bool // not wanted, or taken back
}

// monkey works at the pages, and keeps the plain model.
type monkey struct {
	*stand
	t       *testing.T
	machine *machine
	random  *rand.Rand
	pages   []*page
	meant   []*meant
	byLine  map[string]*meant
	counts  map[string]int

	off        time.Duration // how wrong the clock is
	away, held int           // lines until the station, or the book, is there again
	holder     *desk.Desk
	players    []string
	numbers    map[string]string // of the players, as a tag has them
	playerOf   map[inventory.Number]string
	worn       map[string]int // grinds of each player's set
	last       *page          // where was typed last
}

// newMonkey opens two windows on a club: in the first each scan grinds.
func newMonkey(t *testing.T, seed uint64, team int) *monkey {
	m := &monkey{
		stand: newStand(t), t: t, random: rand.New(rand.NewPCG(seed, 11)), players: []string{"17", "23"},
		byLine: map[string]*meant{}, counts: map[string]int{}, worn: map[string]int{}, playerOf: map[inventory.Number]string{},
	}
	must(t, m.station.book.use("", func(d *desk.Desk) error {
		for sweater := 31; len(m.players) < team; sweater++ {
			m.addPlayer(d, sweater)
			m.players = append(m.players, numeral(sweater))
		}
		return nil
	}))
	m.hasty()
	m.now = m.now.Add(time.Hour) // a clock that is set back a little is still behind the entering of the club
	m.machine = &machine{t: t, now: &m.now, all: &store{}, held: map[string]*page{}, post: m.reach}
	m.pages = []*page{m.machine.open(&store{}), m.machine.open(&store{})}
	m.person(m.pages[0], "g")
	return m
}

// hasty has the station give up a book at once that another program has.
func (m *monkey) hasty() { m.station.book.tries = 1 }

// reach is the way from a page to the station, with what can happen on it.
func (m *monkey) reach(path string, body []byte) ([]byte, int) {
	if m.away > 0 {
		return []byte("nothing answers"), 0
	}
	text, status := m.send(path, body)
	if path == "/line" && m.random.IntN(25) == 0 {
		m.counts["answer lost"]++
		return nil, 0
	}
	return text, status
}

// act is one thing that happens.
func (m *monkey) act() {
	m.pass(time.Duration(3+m.random.IntN(240)) * time.Second)
	m.trouble()
	i := m.random.IntN(2)
	p, player := m.pages[i], m.players[m.random.IntN(len(m.players))]
	if p == nil {
		return
	}
	grinding := i == 0
	switch choice := m.random.IntN(20); {
	case grinding:
		m.scan(p, player)
		m.mean(player, 5, 5)
	case choice < 9:
		m.scan(p, player)
		m.settle(p)
		m.pass(time.Duration(1+m.random.IntN(3)) * time.Second)
		m.person(p, "")
		m.mean(player, 5, 5)
	case choice < 13:
		m.person(p, player)
		m.settle(p)
		m.person(p, "b6")
		m.mean(player, 6, 6)
	case choice < 16:
		m.scan(p, player)
		m.settle(p)
		m.person(p, "l2")
		m.mean(player, 2, 0)
		m.counts["more"]++
	case choice < 19:
		m.takeBack(p)
	default:
		m.tidy()
	}
	m.settle(p)
}

// pass lets time pass, and the pages tell that they are there.
func (m *monkey) pass(d time.Duration) {
	m.now = m.now.Add(d)
	for _, p := range m.pages {
		if p != nil {
			p.beat()
		}
	}
}

// ease brings what is away nearer to its end.
func (m *monkey) ease() {
	m.away, m.held = max(m.away-1, 0), max(m.held-1, 0)
	if m.held == 0 && m.holder != nil {
		must(m.t, m.holder.Close())
		m.holder = nil
	}
}

// trouble begins and ends what goes wrong around the bench.
func (m *monkey) trouble() {
	m.ease()
	if m.away > 0 && m.random.IntN(20) == 0 {
		m.counts["window closed"]++
		m.closeWindow(m.random.IntN(2))
	}
	if m.away > 0 || m.held > 0 {
		return
	}
	m.reopen()
	switch what := m.random.IntN(120); {
	case what < 8:
		m.counts["killed"]++
		m.away = 1 + m.random.IntN(6)
		m.server.Close()
		m.start()
		m.hasty()
	case what < 26:
		m.moveClock()
	case what < 30:
		m.counts["loaded anew"]++
		m.reload(m.random.IntN(2))
	case what == 30 && (!*full || m.random.IntN(10) == 0): // each is waited for
		m.counts["held"]++
		m.held = 1 + m.random.IntN(2)
		m.holder = m.hold()
	}
}

// reload loads a page anew: it is what the window showed before.
func (m *monkey) reload(i int) {
	if p := m.pages[i]; p != nil {
		p.run("queue.leave()")
		p.close()
		m.pages[i] = m.machine.open(p.own)
		m.pages[i].run("queue.redraw()")
	}
}

func (m *monkey) closeWindow(i int) {
	if m.pages[i] != nil {
		m.pages[i].close()
	}
	m.pages[i] = nil
}

// hold has the book, once the station lets go of it.
func (m *monkey) hold() *desk.Desk {
	for tries := 0; ; tries++ {
		d, err := desk.Open(m.options)
		if err == nil {
			return d
		}
		if desk.FailureOf(err) != desk.InUse || tries == 100 {
			m.t.Fatal(err)
		}
	}
}

// reopen opens a new window for one that was closed. It goes on with what that left.
func (m *monkey) reopen() {
	for i, p := range m.pages {
		if p != nil {
			continue
		}
		m.pages[i] = m.machine.open(&store{})
		m.pages[i].run("queue.redraw()")
		m.settle(m.pages[i])
		if m.pages[i].talk().Grinding != (i == 0) {
			m.person(m.pages[i], "g")
			m.settle(m.pages[i])
		}
	}
}

// moveClock sets the computer's clock wrong, or right again.
func (m *monkey) moveClock() {
	m.tidy()
	m.counts["clock moved"]++
	by := []time.Duration{2000 * 24 * time.Hour, 9 * 24 * time.Hour, 3 * time.Hour, -20 * time.Minute}
	if m.off == 0 {
		m.off = by[m.random.IntN(len(by))]
		m.now = m.now.Add(m.off)
		return
	}
	m.now, m.off = m.now.Add(-m.off), 0
}

// scan has a device type a player's number, in whatever way it is set.
func (m *monkey) scan(p *page, player string) {
	m.last = p
	keys, apart := typedKeys(m.number(player)), 8.0
	if m.random.IntN(4) == 0 {
		m.counts["other layout"]++
		keys = shiftedKeys(m.number(player))
	}
	end := [][2]string{{"Enter", "Enter"}}
	switch m.random.IntN(4) {
	case 0:
		m.counts["line ended twice"]++
		end = append(end, end[0])
	case 1:
		end = [][2]string{{"Tab", "Tab"}}
	}
	p.press(apart, append(keys, end...)...)
}

// person has a person type a line.
func (m *monkey) person(p *page, line string) {
	m.last = p
	p.press(180, append(typedKeys(line), [2]string{"Enter", "Enter"})...)
}

func (m *monkey) number(sweater string) string {
	if m.numbers == nil {
		m.numbers = map[string]string{}
		must(m.t, m.station.book.use("", func(d *desk.Desk) error {
			for _, player := range m.players {
				card, err := d.Card(player)
				if err != nil {
					return err
				}
				m.numbers[player] = fmt.Sprintf("%010d", uint64(card.Player))
				m.playerOf[card.Player] = player
			}
			return nil
		}))
	}
	return m.numbers[sweater]
}

// mean keeps what the line that was typed last means.
func (m *monkey) mean(player string, left, right int) {
	what := &meant{key: "line " + numeral(m.machine.lines), player: player, left: left, right: right, at: m.now}
	m.meant = append(m.meant, what)
	m.byLine[what.key] = what
	m.counts["grind"]++
	m.worn[player]++
}

// renew puts a new set on for each player whose set is at the end of its life, while the
// clock is right: what is changed later by the record can't be changed now.
func (m *monkey) renew() {
	if m.off != 0 {
		return
	}
	for _, player := range m.players {
		if m.worn[player] >= lifeGrinds {
			m.tidy()
			m.changeSet(m.machine.lines, player)
			m.worn[player] = 0
		}
	}
}

// settle is a person at the page: he waits for the answer where there can be one, and
// answers what is asked.
func (m *monkey) settle(p *page) {
	if m.away > 0 || m.held > 0 {
		return
	}
	for tries := 0; p.left() > 0; tries++ {
		if tries == 100 {
			m.t.Fatalf("lines are not answered: %s", p.run("JSON.stringify(queue.lines)"))
		}
		p.beat()
	}
	for tries := 0; ; tries++ {
		asked := p.talk().Asked
		if asked == nil {
			return
		}
		if tries == 10 {
			m.t.Fatalf("no answer is taken to %+v", asked)
		}
		m.counts["asked"]++
		yes := asked.Sort != "again" || m.random.IntN(4) > 0
		if asked.Kept == 0 && !yes {
			m.meant[len(m.meant)-1].void = true
			m.counts["dropped"]++
		}
		m.pass(2 * time.Second)
		m.person(p, map[bool]string{true: "y", false: "n"}[yes || asked.Kept != 0])
		for p.left() > 0 {
			p.beat()
		}
	}
}

// takeBack takes back what was recorded last from a window, where it is known what that is.
func (m *monkey) takeBack(p *page) {
	if m.away > 0 || m.held > 0 || len(m.meant) == 0 {
		return
	}
	last := m.meant[len(m.meant)-1]
	before := len(p.talk().Mine)
	if last.void || m.last != p || p.tone != toneDone || before == 0 {
		return
	}
	m.person(p, "u")
	m.settle(p)
	last.void = true
	m.counts["taken back"]++
}

// tidy goes through what waits, once everything is there again.
func (m *monkey) tidy() {
	for m.away > 0 || m.held > 0 {
		m.ease()
	}
	m.reopen()
	for _, p := range m.pages {
		m.settle(p)
	}
	for range 4 { // what closed windows left is taken over
		m.pass(5 * time.Second)
	}
	for i, p := range m.pages {
		m.settle(p)
		for waits := p.talk().Waiting; len(waits) > 0; waits = p.talk().Waiting {
			m.counts["waited"]++
			m.decide(i, p, waits[0])
		}
	}
	m.last = nil // what was recorded last is of another line than the one that was typed last
}

// decide has a line done that waits, or drops it and does it anew.
func (m *monkey) decide(i int, p *page, w waiting) {
	what := m.byLine[w.Key]
	if what == nil || what.void || w.After != "" {
		m.person(p, "d"+numeral(w.No))
		m.settle(p)
		if what == nil || what.void || w.Recorded {
			return
		}
		m.redo(i, p, what)
		return
	}
	m.person(p, "w"+numeral(w.No))
	m.settle(p)
	if slices.ContainsFunc(p.talk().Waiting, func(l waiting) bool { return l.No == w.No }) {
		m.t.Fatalf("it still waits: %+v\n%s", w, p.told)
	}
}

// redo does a line again that could not be done as it was meant.
func (m *monkey) redo(i int, p *page, what *meant) {
	what.void = true
	m.pass(2 * time.Minute)
	if i == 0 {
		m.person(p, "g")
		m.settle(p)
		defer func() { m.person(p, "g"); m.settle(p) }()
	}
	m.scan(p, what.player)
	m.settle(p)
	m.person(p, fmt.Sprintf("l%d", what.left))
	m.mean(what.player, what.left, 0)
	m.settle(p)
	if what.right > 0 {
		m.person(p, fmt.Sprintf("r%d", what.right))
		m.mean(what.player, 0, what.right)
		m.settle(p)
	}
}

// ground is a grind in the record.
type ground struct {
	player      string
	left, right int
	at          time.Time
}

// compare holds the record against what was meant.
func (m *monkey) compare() {
	m.t.Helper()
	var meant []ground
	for _, what := range m.meant {
		if !what.void {
			meant = append(meant, ground{what.player, what.left, what.right, what.at})
		}
	}
	recorded := m.recorded()
	slices.SortFunc(meant, ground.compare)
	slices.SortFunc(recorded, ground.compare)
	if len(recorded) != len(meant) {
		m.t.Errorf("%d grinds were meant, %d recorded", len(meant), len(recorded))
	}
	wrong := 0
	for i := range min(len(meant), len(recorded)) {
		a, b := meant[i], recorded[i]
		if off := b.at.Sub(a.at).Abs(); a.player != b.player || a.left != b.left || a.right != b.right || off > mostOff {
			if wrong++; wrong < 10 {
				m.t.Errorf("meant %+v, recorded %+v", a, b)
			}
		}
	}
}

// mostOff is how far the time of a line that counts as typed now may be from when it was.
const mostOff = 6 * time.Second

func (a ground) compare(b ground) int {
	return cmp.Or(cmp.Compare(a.player, b.player), a.at.Compare(b.at), cmp.Compare(a.left, b.left), cmp.Compare(a.right, b.right))
}

// recorded are the grinds that stand in the record.
func (m *monkey) recorded() []ground {
	m.t.Helper()
	var all []inventory.Event
	voided := map[inventory.Key]bool{}
	for line := range bytes.Lines(m.exported()) {
		var e inventory.Event
		must(m.t, json.Unmarshal(line, &e))
		all = append(all, e)
		for _, key := range inventory.Voids(&e) {
			voided[key] = true
		}
	}
	var recorded []ground
	for _, e := range all {
		b, ok := e.Body.(*inventory.Ground)
		if !ok || voided[e.Key] {
			continue
		}
		g := ground{player: m.playerOf[b.Player], at: e.Happened.Start}
		if left := b.Left; left != nil && left.Passes != nil {
			g.left = *left.Passes
		}
		if right := b.Right; right != nil && right.Passes != nil {
			g.right = *right.Passes
		}
		recorded = append(recorded, g)
	}
	return recorded
}
