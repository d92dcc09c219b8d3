package station

import (
	"encoding/json"
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/dop251/goja"
)

// machine is what the pages of one computer share: its clock, the browser's store, the way
// to the station.
type machine struct {
	t     *testing.T
	now   *time.Time
	all   *store
	held  map[string]*page                                         // who has a name for as long as it is there
	post  func(path string, body []byte) (text []byte, status int) // status 0: nothing answers
	lines int
}

// page is the screen's page without a browser: its own scripts for keys and lines, run in
// a world that is handed in.
type page struct {
	*machine
	vm    *goja.Runtime
	own   *store
	key   goja.Callable
	wakes []func(any) error // who waits to try again
	stamp float64           // ms, of the last key
	told  string            // what was said last, and its tone
	tone  string
	text  string // of the trouble
}

// open opens the page in a window that keeps something of its own.
func (m *machine) open(own *store) *page {
	p := &page{machine: m, vm: goja.New(), own: own}
	p.vm.SetFieldNameMapper(goja.UncapFieldNameMapper())
	for _, script := range []string{"keys.js", "queue.js"} {
		text, err := files.ReadFile("assets/" + script)
		must(m.t, err)
		if _, err := p.vm.RunString(strings.ReplaceAll(string(text), "export ", "")); err != nil {
			m.t.Fatal(err)
		}
	}
	p.set("world", map[string]any{
		"own": p.storage(own), "all": p.storage(m.all), "now": m.milliseconds, "post": p.reach, "wait": p.wait, "key": p.nextKey,
		"hold": p.hold, "alone": p.alone,
	})
	p.set("shown", func(answer map[string]any) {
		p.told, _ = answer["told"].(string)
		p.tone, _ = answer["tone"].(string)
	})
	p.set("trouble", func(text goja.Value) {
		if !goja.IsNull(text) {
			p.text = text.String()
		}
	})
	p.run(`
		let queue;
		Queue.open(world, (answer, acted) => { if (acted) shown(answer); }, trouble).then((opened) => { queue = opened; });
		const keys = new Keys({ value: "" }, (line) => queue.add(line));
		function press(key, code, at) {
			if (keys.empty()) queue.look();
			keys.key({ key, code, timeStamp: at, getModifierState: () => false });
		}`)
	p.key, _ = goja.AssertFunction(p.run("press"))
	return p
}

func (p *page) set(name string, value any) { must(p.t, p.vm.Set(name, value)) }

func (p *page) run(script string) goja.Value {
	p.t.Helper()
	value, err := p.vm.RunString(script)
	if err != nil {
		p.t.Fatal(err)
	}
	return value
}

func (m *machine) milliseconds() float64 { return float64(m.now.UnixMilli()) }

func (p *page) nextKey() string {
	p.lines++
	return "line " + numeral(p.lines)
}

// reach sends what the page sends.
func (p *page) reach(path string, body goja.Value) *goja.Promise {
	promise, resolve, _ := p.vm.NewPromise()
	sent, err := json.Marshal(body.Export())
	must(p.t, err)
	answer := map[string]any{}
	text, status := p.post(path, sent)

	if status == 200 {
		must(p.t, json.Unmarshal(text, &answer))
		must(p.t, resolve(map[string]any{"answer": answer}))
	} else {
		must(p.t, resolve(map[string]any{"text": string(text)}))
	}
	return promise
}

// close closes the window: what it had names for is free.
func (p *page) close() {
	maps.DeleteFunc(p.held, func(_ string, holder *page) bool { return holder == p })
}

func (p *page) hold(name string) *goja.Promise {
	promise, resolve, _ := p.vm.NewPromise()
	free := p.held[name] == nil
	if free {
		p.held[name] = p
	}
	must(p.t, resolve(free))
	return promise
}

func (p *page) alone(name string, work func() any) *goja.Promise {
	promise, resolve, _ := p.vm.NewPromise()
	if p.held[name] == nil {
		work()
	}
	must(p.t, resolve(nil))
	return promise
}

// wait ends when the test says so.
func (p *page) wait(float64) *goja.Promise {
	promise, resolve, _ := p.vm.NewPromise()
	p.wakes = append(p.wakes, resolve)
	return promise
}

// beat lets some seconds pass: what waits to be sent again is sent.
func (p *page) beat() {
	waiting := p.wakes
	p.wakes = nil
	for _, wake := range waiting {
		must(p.t, wake(nil))
	}
	p.run("queue.beat()")
}

// talk is what the page remembers.
func (p *page) talk() (t talk) {
	must(p.t, json.Unmarshal([]byte(p.run("JSON.stringify(queue.talk)").String()), &t))
	return t
}

// left is how many lines were not answered yet.
func (p *page) left() int { return int(p.run("queue.lines.length + queue.guests.length").ToInteger()) }

// press presses keys, some milliseconds apart; a key is what the layout makes of it, and
// where it is on the keyboard.
func (p *page) press(apart float64, keys ...[2]string) {
	p.t.Helper()
	p.stamp = max(p.stamp+2000, p.milliseconds())
	for _, key := range keys {
		if _, err := p.key(goja.Undefined(), p.vm.ToValue(key[0]), p.vm.ToValue(key[1]), p.vm.ToValue(p.stamp)); err != nil {
			p.t.Fatal(err)
		}
		p.stamp += apart
	}
}

// storage is a browser's store as its pages see it.
func (p *page) storage(s *store) *goja.Object {
	o := p.vm.NewObject()
	must(p.t, o.Set("getItem", func(name string) any {
		if value, ok := s.values[name]; ok {
			return value
		}
		return nil
	}))
	must(p.t, o.Set("setItem", s.set))
	must(p.t, o.Set("removeItem", s.remove))
	must(p.t, o.Set("key", func(i int) string { return s.names[i] }))
	must(p.t, o.DefineAccessorProperty("length", p.vm.ToValue(func() int { return len(s.names) }), nil, goja.FLAG_FALSE, goja.FLAG_TRUE))
	return o
}

// store is a browser's storage.
type store struct {
	names  []string
	values map[string]string
	room   int // bytes that it takes; 0: any
}

func (s *store) set(name, value string) error {
	size := len(value)
	for other, kept := range s.values {
		if other != name {
			size += len(kept)
		}
	}
	if s.room > 0 && size > s.room {
		return errors.New("QuotaExceededError")
	}
	if s.values == nil {
		s.values = map[string]string{}
	}
	if _, known := s.values[name]; !known {
		s.names = append(s.names, name)
	}
	s.values[name] = value
	return nil
}

func (s *store) remove(name string) {
	delete(s.values, name)
	s.names = slices.DeleteFunc(s.names, func(n string) bool { return n == name })
}

// typed are the keys of a text on a keyboard whose digits are where they are.
func typedKeys(text string) (keys [][2]string) {
	for _, r := range text {
		keys = append(keys, [2]string{string(r), codeOf(r)})
	}
	return keys
}

// shifted are the keys of a text from a scanner that is set to another layout than the
// computer: its digits arrive as the signs that the top row has there.
func shiftedKeys(text string) (keys [][2]string) {
	row := []rune("à&é\"'(-è_ç")
	for _, r := range text {
		key := string(r)
		if r >= '0' && r <= '9' {
			key = string(row[r-'0'])
		}
		keys = append(keys, [2]string{key, codeOf(r)})
	}
	return keys
}

// codeOf is the place of a digit's or a letter's key, as UI Events KeyboardEvent code
// values name it.
func codeOf(r rune) string {
	switch {
	case r >= '0' && r <= '9':
		return "Digit" + string(r)
	case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z':
		return "Key" + strings.ToUpper(string(r))
	}
	return ""
}
