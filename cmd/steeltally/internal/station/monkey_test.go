package station

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// model is what a person at the jig means: an act is about the last player that he typed
// before it. It knows nothing of how the station comes to that.
type model struct {
	numbers map[string]inventory.Number
	card    inventory.Number // whom the next act is about; 0: nobody
	works   []work
	mine    []int // of the works: what taking back takes back, the latest last
	waits   []string

	dark  bool // a line before waits, and nobody has seen that
	floor int  // of the works: the latest before a line that waits, unseen
	asks  inventory.Number
}

// line is what comes of a line; kept ones were typed before anything of their row was
// shown.
func (m *model) line(line, key string, at time.Time, kept bool) {
	asked := m.asks
	m.asks = 0
	if asked != 0 && (line == "y" || line == "n" || line == "") {
		if line == "y" {
			m.record(asked, key, at)
		}
		return
	}
	number, known := m.numbers[line]
	isNumber := line != "" && line[0] <= '9'
	switch {
	case known:
		m.card, m.dark = number, false
	case line == "u" && kept && (m.top() == m.floor || m.top() < 0):
		m.wait(line)
	case line == "u":
		m.works[m.top()].void = true
		m.mine = m.mine[:len(m.mine)-1]
	case m.dark && !isNumber:
		m.wait(line)
	case line != "" || m.card == 0: // what nobody knows, or nobody to act on
		if line != "" {
			m.card = 0
		}
		if kept {
			m.wait(line)
		}
	case m.justGround(at) && kept:
		m.wait(line)
	case m.justGround(at):
		m.asks = m.card
	default:
		m.record(m.card, key, at)
	}
}

func (m *model) record(player inventory.Number, key string, at time.Time) {
	m.mine = append(m.mine, len(m.works))
	m.mine = m.mine[max(0, len(m.mine)-mostTakenBack):]
	m.works = append(m.works, work{player, at, key, false})
}

// mostTakenBack is how many actions a window can take back.
const mostTakenBack = 20

// top is the work that is taken back next; less than 0: there is none.
func (m *model) top() int {
	if len(m.mine) == 0 {
		return -1
	}
	return m.mine[len(m.mine)-1]
}

func (m *model) wait(line string) {
	m.waits = append(m.waits, line)
	m.dark, m.floor = true, m.top()
}

// looks is what a person does before the next row: he sees what waits.
func (m *model) looks() { m.dark, m.floor = false, -2 }

func (m *model) justGround(at time.Time) bool {
	return slices.ContainsFunc(m.works, func(w work) bool {
		return w.player == m.card && !w.void && w.at.Sub(at).Abs() < time.Minute
	})
}

// TestKeptLinesAtRandom types lines while the station is there, away, or another program
// has the book; answers get lost, and pages are loaded anew. The record and the list of
// what waits are those of the model: nothing is lost, doubled, guessed or another's.
func TestKeptLinesAtRandom(t *testing.T) {
	rows := 40
	if *full {
		rows = 1500
	}
	recorded, waited := 0, 0
	for seed := range uint64(3) {
		s := newStand(t)
		m := &model{numbers: map[string]inventory.Number{}}
		for _, sweater := range []string{"17", "23"} {
			m.numbers[sweater] = s.about(sweater).Number
		}
		random := rand.New(rand.NewPCG(seed, 7))
		w := s.window("W")
		for range rows {
			s.now = s.now.Add(time.Duration(random.IntN(200)) * time.Second)
			m.looks()
			if random.IntN(2) == 0 {
				w.liveRow(m, random)
			} else {
				w.keptRow(m, random)
			}
			if got := w.talk.waitingLines(); !slices.Equal(got, m.waits) {
				t.Fatalf("seed %d: %q wait; want %q", seed, got, m.waits)
			}
			if len(m.waits) > 40 {
				w.dropAll(m)
			}
			waited += len(m.waits)
		}
		if got := s.works("W"); !slices.Equal(got, m.works) {
			t.Fatalf("seed %d: %+v; want %+v", seed, got, m.works)
		}
		recorded += len(m.works)
	}
	t.Logf("%d grinds were recorded", recorded)
	if recorded < rows*3/4 || waited < rows {
		t.Errorf("only %d grinds, %d lines that waited", recorded, waited)
	}
}

func typedLine(random *rand.Rand) string {
	return []string{"17", "17", "23", "23", "", "", "", "", "u", "y", "n", "5", "4006381333931"}[random.IntN(13)]
}

// liveRow is one line that a person sees the end of, and his answer to what is asked.
func (w *window) liveRow(m *model, random *rand.Rand) {
	line := typedLine(random)
	if line == "u" && len(m.mine) == 0 {
		return // it asks about what was recorded elsewhere
	}
	w.live(line)
	m.line(line, w.name+" "+numeral(w.typed), w.now, false)
}

// keptRow are lines that are typed while the station is away or the book is held, and
// sent some time after the last of them.
func (w *window) keptRow(m *model, random *rand.Rand) {
	w.t.Helper()
	for range 1 + random.IntN(8) {
		w.types(time.Duration(1+random.IntN(50))*time.Second, typedLine(random))
	}
	away := w.now.Add(time.Duration(6+random.IntN(3000)) * time.Second)
	for _, line := range w.kept {
		m.line(line.Line, line.Key, line.Typed.At, true)
	}
	w.now = away
	if random.IntN(60) == 0 {
		other, err := desk.Open(w.options)
		must(w.t, err)
		if said := w.refused(); said != 503 {
			w.t.Errorf("%d while another program has the book", said)
		}
		must(w.t, other.Close())
	}
	w.sends(func() int { return random.IntN(4) / 3 })
}

// refused sends the first line while the book can't be had, and gives the status.
func (w *window) refused() int {
	w.t.Helper()
	in := w.kept[0]
	in.Talk = w.talk
	body, err := json.Marshal(in)
	must(w.t, err)
	_, status := w.send("/line", body)
	return status
}

// dropAll drops all lines that wait.
func (w *window) dropAll(m *model) {
	w.t.Helper()
	for _, line := range w.talk.Waiting {
		w.live("d" + numeral(line.No))
	}
	m.waits = m.waits[:0]
}
