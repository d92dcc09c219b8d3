package cli

import (
	"html"
	"maps"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"steeltally/inventory"
)

// screens are the pages that the screen has a way to, as its frame shows them.
func (w *window) screens() (names []string) {
	w.t.Helper()
	request := httptest.NewRequest(http.MethodGet, "http://"+w.host+"/", nil)
	request.AddCookie(w.cookie)
	answer := httptest.NewRecorder()
	w.handler.ServeHTTP(answer, request)
	for _, found := range groups(`data-screen="([a-z]+)"`, answer.Body.String()) {
		names = append(names, found[1])
	}
	return names
}

// textIn is a text of a page, with what stands before it: the tag that it is in.
var textIn = regexp.MustCompile(`<([^<>]*)>([^<>]+)`)

// silentIn are the texts of a page that show something unsafe and do not warn; but for those
// that tell the past. The warning stands in the text, or right behind it.
func silentIn(page string, isUnsafe func(text string) bool) (silent []string) {
	texts := textIn.FindAllStringSubmatch(page, -1)
	for i, found := range texts {
		if strings.Contains(found[1], `class="past"`) || !isUnsafe(html.UnescapeString(found[2])) || strings.Contains(found[2], "DO NOT SKATE") {
			continue
		}
		if i+1 == len(texts) || texts[i+1][2] != "DO NOT SKATE" {
			silent = append(silent, found[2])
		}
	}
	return silent
}

// Whatever a page of the screen shows the number of says DO NOT SKATE where it is unsafe: on
// each screen that there is a way to, and on what a scan of each unsafe thing shows. With the
// warning taken out of what was drawn, each of them is found.
func TestEveryScreenSaysDoNotSkate(t *testing.T) {
	t.Chdir(t.TempDir())
	club, unsafe := unsafeClub(t)
	a := &asker{t: t, book: filepath.Join(".", club.book), now: club.now}
	w := a.window()
	shown := map[string]int{}
	isUnsafe := func(text string) (any bool) {
		for _, one := range anyNumber.FindAllString(spelledTyped.ReplaceAllString(text, ""), -1) {
			if n, err := inventory.ParseNumber(one); err == nil && unsafe[n.Short()] {
				shown[n.Short()]++
				any = true
			}
		}
		return any
	}
	pages, blind := map[string]string{}, 0
	numbers := slices.Sorted(maps.Keys(unsafe))
	for _, name := range w.screens() {
		pages[name] = w.screen(name, nil)
	}
	pages["due"] = string(w.send("/slow", map[string]any{"talk": map[string]any{"screen": "due"}}))
	pages["the trip"] = w.screen("trip", map[string]any{"trip": "Point"})
	pages["the scanned bin"] = w.screen("bin", map[string]any{"bin": numbers})
	for _, short := range numbers {
		n, err := inventory.ParseNumber(short)
		must(t, err)
		scanned := w.scan(n)
		pages["scan of "+short], pages["board at "+short], pages["told at "+short] = scanned.Main, scanned.Board, scanned.Told
		pages["history of "+short] = w.screen("piece", map[string]any{"piece": short})
	}
	for name, page := range pages {
		for _, silent := range silentIn(page, isUnsafe) {
			t.Errorf("%s: nothing warns in: %s", name, silent)
		}
		if strings.Contains(page, "DO NOT SKATE") && len(silentIn(strings.ReplaceAll(page, "DO NOT SKATE", "?"), isUnsafe)) > 0 {
			blind++
		}
	}
	if len(w.screens()) < 7 || blind < len(numbers) {
		t.Errorf("%d screens, and the warning taken out was found on %d pages only", len(w.screens()), blind)
	}
	for _, short := range numbers {
		if shown[short] == 0 {
			t.Errorf("%s was shown on no page", short)
		}
	}
	t.Log(len(pages), "pages;", shown)
}
