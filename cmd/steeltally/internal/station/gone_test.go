package station

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"
)

// bench has pages before a station that can be away.
type bench struct {
	*stand
	*machine
	away bool
}

func newBench(t *testing.T) *bench {
	b := &bench{stand: newStand(t)}
	b.machine = &machine{t: t, now: &b.stand.now, all: &store{}, held: map[string]*page{}, post: func(path string, body []byte) ([]byte, int) {
		if b.away {
			return []byte("nothing answers"), 0
		}
		return b.send(path, body)
	}}
	return b
}

// pass lets beats pass at pages that are there.
func (b *bench) pass(beats int, pages ...*page) {
	for range beats {
		b.stand.now = b.stand.now.Add(5 * time.Second)
		for _, p := range pages {
			p.beat()
		}
	}
}

// types types lines as a person does.
func (p *page) types(lines ...string) {
	for _, line := range lines {
		p.press(180, append(typedKeys(line), [2]string{"Enter", "Enter"})...)
	}
}

// stored is what a window of that name keeps.
func (p *page) stored() string { return p.all.values["station."+p.run("queue.id").String()] }

// TestAScreenThatAGoneWindowTurnedTo: what was typed there is done as on that screen, and
// grinds nothing; the bin that was begun waits for a window that opens.
func TestAScreenThatAGoneWindowTurnedTo(t *testing.T) {
	b := newBench(t)
	gone, stays := b.open(&store{}), b.open(&store{})
	gone.types("g")
	gone.run(`queue.go("bin")`)
	gone.types("R1-1-77")
	gone.run(`queue.go("jig")`)
	b.away = true
	gone.types("23")
	gone.run(`queue.go("bin")`)
	gone.types("17", "S1-2-69")
	gone.close()
	b.away = false
	b.pass(6, stays)
	if works := b.works("line"); len(works) != 1 || !slices.Equal(stays.talk().waitingLines(), []string{"17"}) {
		t.Errorf("%d grinds, %q wait", len(works), stays.talk().waitingLines())
	}
	opened := b.open(&store{})
	b.pass(6, opened, stays)
	if bin := opened.talk().Bin; !slices.Equal(bin, []string{"R1-1-77", "S1-2-69"}) || len(stays.talk().Waiting) != 1 || len(opened.talk().Waiting) != 0 {
		t.Errorf("the bin is %q; %q and %q wait", bin, opened.talk().waitingLines(), stays.talk().waitingLines())
	}
}

// TestAPageOfAnOlderVersion has no lock, and is there for as long as it keeps its time.
func TestAPageOfAnOlderVersion(t *testing.T) {
	b := newBench(t)
	older := b.open(&store{})
	older.types("17", "4006381333931", "x")
	older.close() // of its lock; the page goes on, as it was
	name := "station." + older.run("queue.id").String()
	tells := func() {
		var kept map[string]any
		must(t, json.Unmarshal([]byte(older.stored()), &kept))
		kept["at"] = b.milliseconds()
		text, err := json.Marshal(kept)
		must(t, err)
		must(t, b.all.set(name, string(text)))
	}
	older.run(`queue.talk.waiting = [{ no: 1, key: "older", line: "17", why: "", screen: "jig" }], queue.talk.waits = 1, queue.keep()`)
	tells()
	stays, opened := b.open(&store{}), b.open(&store{})
	for range 20 {
		tells()
		b.pass(1, stays, opened)
	}
	if len(stays.talk().Waiting)+len(opened.talk().Waiting) > 0 || !strings.Contains(older.stored(), `"older"`) {
		t.Errorf("%q and %q wait, and the page is there", stays.talk().waitingLines(), opened.talk().waitingLines())
	}
	b.pass(24, stays, opened)
	if len(stays.talk().Waiting)+len(opened.talk().Waiting) != 1 {
		t.Errorf("%q and %q wait, and the page is gone", stays.talk().waitingLines(), opened.talk().waitingLines())
	}
}

// TestWhatIsNoWindows: what else stands in the browser's store keeps no page from opening.
func TestWhatIsNoWindows(t *testing.T) {
	for _, text := range []string{"", "null", "7", "{}", `{"talk":null,"lines":[]}`, `{"talk":{}}`, "{"} {
		b := newBench(t)
		must(t, b.all.set("station.other", text))
		p := b.open(&store{})
		b.pass(6, p)
		p.types("17", "b6")
		if works := b.works("line"); len(works) != 1 {
			t.Errorf("%q: %d grinds", text, len(works))
		}
	}
}

// TestABrowserWithoutRoom: it is said for as long as anything waits, and what a window that
// is gone left stays in one place.
func TestABrowserWithoutRoom(t *testing.T) {
	b := newBench(t)
	p := b.open(&store{})
	b.pass(1, p)
	b.all.room = 1
	b.away = true
	p.types("17", "b6")
	b.pass(1, p)
	if !strings.Contains(p.text, "nothing answers") || !strings.Contains(p.text, "no room") {
		t.Errorf("%q", p.text)
	}
	b.away = false
	b.pass(2, p)
	if p.text != "" || len(b.works("line")) != 1 {
		t.Errorf("nothing waits: %q", p.text)
	}
	p.types("4006381333931")
	p.run(`queue.talk.waiting = [{ no: 1, key: "k", line: "17", why: "", screen: "jig" }]`)
	b.pass(1, p)
	if !strings.Contains(p.text, "no room") {
		t.Errorf("a line waits: %q", p.text)
	}
}

// TestLinesOfAGoneWindowThatFillTheBrowser are sent all the same.
func TestLinesOfAGoneWindowThatFillTheBrowser(t *testing.T) {
	for _, opens := range []bool{false, true} {
		b := newBench(t)
		gone, stays := b.open(&store{}), b.open(&store{})
		b.pass(1, gone, stays)
		b.away = true
		gone.types("17", "b6", "23", "b7")
		gone.close()
		for _, text := range b.all.values {
			b.all.room += len(text)
		}
		b.all.room += 100
		b.away = false
		if opens {
			stays = b.open(&store{})
		}
		b.pass(6, stays)
		if works := b.works("line"); len(works) != 2 || stays.left() != 0 {
			t.Errorf("a window opens %t: %d grinds: %q", opens, len(works), stays.text)
		}
	}
}
