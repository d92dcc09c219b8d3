package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strconv"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/station"
	"steeltally/inventory"
)

// window is a window of the screen on a book, behind the station's gate.
type window struct {
	*asker
	handler http.Handler
	host    string
	cookie  *http.Cookie
	who     names
	lines   int
}

func (a *asker) window() *window {
	a.t.Helper()
	address := &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8017}
	s := station.New(station.Options{Desk: desk.Options{Book: a.book, Now: func() time.Time { return a.now }}}, address)
	w := &window{asker: a, handler: s.Handler(), host: address.String()}
	link := s.Offer().Link
	request := httptest.NewRequest(http.MethodGet, link, nil)
	answer := httptest.NewRecorder()
	w.handler.ServeHTTP(answer, request)
	w.cookie = answer.Result().Cookies()[0]
	return w
}

// send gives the station what the page sends.
func (w *window) send(path string, body any) []byte {
	w.t.Helper()
	text, err := json.Marshal(body)
	if err != nil {
		w.t.Fatal(err)
	}
	request := httptest.NewRequest(http.MethodPost, "http://"+w.host+path, bytes.NewReader(text))
	request.AddCookie(w.cookie)
	request.Header.Set("Sec-Fetch-Site", "same-origin")
	answer := httptest.NewRecorder()
	w.handler.ServeHTTP(answer, request)
	said, err := io.ReadAll(answer.Result().Body)
	if err != nil || answer.Code != http.StatusOK || bytes.Contains(said, []byte("be shown")) {
		w.t.Fatalf("%s %s: %d, %v: %s", path, text, answer.Code, err, said)
	}
	return said
}

// shown is what a part of the screen shows.
type shown struct{ Main, Board, Told string }

func (w *window) show(path string, body map[string]any) (s shown) {
	w.t.Helper()
	if err := json.Unmarshal(w.send(path, body), &s); err != nil {
		w.t.Fatal(err)
	}
	return s
}

// scan shows what is scanned.
func (w *window) scan(n inventory.Number) shown {
	w.lines++
	return w.show("/line", map[string]any{"key": fmt.Sprint("k", w.lines), "line": n.String(), "talk": map[string]any{"screen": "jig"}})
}

// screen shows one of the screens.
func (w *window) screen(name string, more map[string]any) string {
	talk := map[string]any{"screen": name}
	for key, value := range more {
		talk[key] = value
	}
	return w.show("/part", map[string]any{"talk": talk}).Main
}

// look gathers what the screen tells: the board, the lists, and of what is picked the card
// and the history.
func (w *window) look(players, pieces []inventory.Number) (all []*telling) {
	board := newTelling("the board")
	for _, n := range players {
		first := w.scan(n)
		all = append(all, w.bench(n, first.Main))
		if len(board.claims) == 0 {
			w.readBoard(board, first.Board)
		}
	}
	all = append(all, board)
	for _, n := range pieces {
		if n.Kind() != inventory.KindPair { // scanned, it is its player
			all = append(all, w.card(n, w.scan(n).Main))
		}
		all = append(all, w.piece(n))
	}
	for _, trip := range w.who.trips {
		all = append(all, w.trip(w.screen("trip", map[string]any{"trip": trip})))
	}
	return append(all, w.due(string(w.send("/slow", map[string]any{"talk": map[string]any{"screen": "due"}}))), w.spares(w.screen("spares", nil)))
}

// group is what a pattern finds in a text, or nothing.
func group(pattern, text string) string {
	if found := regexp.MustCompile(pattern).FindStringSubmatch(text); found != nil {
		return html.UnescapeString(found[1])
	}
	return ""
}

func groups(pattern, text string) [][]string {
	all := regexp.MustCompile(pattern).FindAllStringSubmatch(text, -1)
	for i := range all {
		for j := range all[i] {
			all[i][j] = html.UnescapeString(all[i][j])
		}
	}
	return all
}

// unsafe claims what a part of the screen says that nobody may skate on.
func (t *telling) unsafe(text string) (any bool) {
	for _, line := range groups(`(was )?DO NOT SKATE(?: on|:) ([^<]*)`, text) {
		if line[1] != "" {
			continue // it was lifted, and is shown for a week
		}
		any = true
		for _, n := range shorts(line[2]) {
			t.claim(n, factSafety, "true")
		}
	}
	return any
}

func (w *window) readBoard(t *telling, text string) {
	on := map[inventory.Number]bool{}
	for _, line := range groups(`data-line="(7[0-9]{9})"`, text) {
		on[numberOf(line[1])] = true
	}
	for n := range w.who.players {
		t.claim(n, factSteelOn, strconv.FormatBool(on[n]))
	}
}

// bench is what is shown of a player.
func (w *window) bench(n inventory.Number, text string) *telling {
	if strings.Contains(text, `<section class="rescue">`) {
		t := newTelling("what to do in an emergency")
		t.unsafe(text)
		return t
	}
	t := newTelling("the bench")
	who := w.who.players[n]
	pair := who.pairs[group(`<p>[^<]*, ([a-z]+) pair</p>`, text)]
	letter := group(`<small>set</small> ([^<]*)<`, text)
	t.claim(n, factSteelOn, strconv.FormatBool(letter != ""))
	if pair == 0 {
		return t
	}
	t.claim(n, factPair, pair.String())
	set := who.letters[letter]
	t.claim(set, factPair, pair.String())
	t.claim(pair, factSafety, strconv.FormatBool(t.unsafe(text)))
	if set != 0 {
		for _, h := range groups(`<dt>(left|right)</dt><dd>([^<]*?)(?: <|<)`, text) {
			if h[2] == "none is on" {
				continue
			}
			t.shownHeight(w.who.sets[set].Runner(inventory.Side(h[1])), h[2])
		}
	}
	for _, ready := range groups(`put on set ([A-Z]+)(?: <small>([^<]*)</small>)?</button>`, text) {
		set := who.letters[ready[1]]
		t.claim(set, factState, string(inventory.Ready))
		t.claim(set, factSafety, "false")
		t.claim(set, factPlace, ready[2])
	}
	return t
}

// shownHeight claims how high a runner is said to be now, by as many digits as are shown; a
// reading is shown as a reading, with its day.
func (t *telling) shownHeight(runner inventory.Number, text string) {
	now, measured, _ := strings.Cut(text, "measured ")
	figure := group(`([0-9]+\.[0-9]+)`, now)
	if figure == "" {
		if !regexp.MustCompile(`^[0-9.]+ on [^,]*$`).MatchString(strings.TrimSpace(measured)) {
			t.high(runner, nil, 0)
		}
		return
	}
	_, decimals, _ := strings.Cut(figure, ".")
	within := 0.5001
	for range decimals {
		within /= 10
	}
	t.high(runner, figure, within)
}

// card is what is shown of a piece that was scanned.
func (w *window) card(n inventory.Number, text string) *telling {
	t := newTelling("the card of a " + n.Kind().String())
	if !strings.Contains(text, `<section class="card">`) {
		return t // its entry was taken back: there is no such piece
	}
	unsafe := t.unsafe(text)
	switch n.Kind() {
	case inventory.KindSet:
		t.shownState(n, group(`<li>([a-z -]+) · left R`, text))
		if where := group(`<li>lies at ([^<]*)<`, text); where != "" {
			t.claim(n, factPlace, where)
		}
		for _, h := range groups(`  (left|right) ((?:[^< ]| [^< ])*)`, text) {
			t.shownHeight(w.who.sets[n].Runner(inventory.Side(h[1])), h[2])
		}
	case inventory.KindRunner:
		t.shownState(n, group(`<li>([a-z -]+)(?:,|<)`, text))
		t.claim(n, factSafety, strconv.FormatBool(unsafe))
	case inventory.KindHolder:
		t.claim(n, factSafety, strconv.FormatBool(unsafe))
	}
	return t
}

// shownState claims a state where there is room for it: what nobody may skate on comes first.
func (t *telling) shownState(n inventory.Number, word string) {
	if word != "" {
		t.claim(n, factState, word)
	}
}

// piece is the screen of a piece's history.
func (w *window) piece(n inventory.Number) *telling {
	t := newTelling("the screen of a " + n.Kind().String())
	head := group(`(?s)<h2>(.*?)</h2>`, w.screen("piece", map[string]any{"piece": n.String()}))
	t.claim(n, factSafety, strconv.FormatBool(strings.Contains(head, "DO NOT SKATE")))
	if life := group(`<small>([a-z -]*)`, head); hasToTell(n.Kind(), factState) {
		t.claim(n, factState, strings.TrimSpace(life))
	}
	return t
}

// due is the list of what is due.
func (w *window) due(text string) *telling {
	t := newTelling("the screen of what is due")
	var list []inventory.Number
	for _, section := range strings.Split(text, "<h3>")[1:] {
		for _, row := range groups(`(?s)<tr><th scope="row"><button type="button" data-line="(7[0-9]{9})">.*?</th><td>[^<]*</td><td>([A-Z]+)(?: \(([a-z]+) pair\))?</td>(.*?)</tr>`, section) {
			n := numberOf(row[1])
			list = append(list, n)
			role := row[3]
			if role == "" {
				role = string(inventory.RoleFirst)
			}
			pair := w.who.players[n].pairs[role]
			t.claim(n, factPair, pair.String())
			t.claim(n, factSteelOn, "true")
			t.claim(pair, factSafety, strconv.FormatBool(strings.HasPrefix(section, "DO NOT SKATE")))
			for _, h := range groups(`(left|right) about ([0-9.]+)`, row[4]) {
				t.shownHeight(w.who.seats[pair][h[1]], h[2])
			}
		}
	}
	t.ranked("due", list)
	return t
}

// spares is the list of the spare pairs.
func (w *window) spares(text string) *telling {
	t := newTelling("the screen of the spare pairs")
	words := map[string]string{"fix first": "fix", "<b>MISSING</b>": "missing", "ready, he would rather not": "declined", "ready": "ready"}
	var list []inventory.Number
	for _, row := range groups(`(?s)<tr><th scope="row"><button type="button" data-line="(7[0-9]{9})">.*?</th><td>[^<]*</td><td>(.*?)</td><td>[^<]*</td><td>[^<]*</td><td>([^<]*)</td></tr>`, text) {
		n := numberOf(row[1])
		list = append(list, n)
		t.claim(n, factState, words[row[2]])
		if pair := w.who.players[n].pairs[string(inventory.RoleSpare)]; row[3] != "" {
			t.claim(pair, factPlace, row[3])
		}
	}
	t.ranked("spares", list)
	return t
}

// trip is the screen of a trip.
func (w *window) trip(text string) *telling {
	t := newTelling("the screen of a trip")
	for _, row := range groups(`<td>([A-Z][0-9]-[0-9]+-[0-9]{2})</td><td>[^<]*</td><td>([^<]*)</td></tr>`, text) {
		t.claim(numberOf(row[1]), factPlace, row[2])
	}
	return t
}
