//go:build outside

package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// slowly has each page of a window that opens from now on wait for its name.
func (s *screen) slowly() {
	s.t.Helper()
	s.do(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `{
			const request = navigator.locks.request.bind(navigator.locks);
			navigator.locks.request = async (...asked) => { await new Promise((r) => setTimeout(r, 1500)); return request(...asked); };
		}`})
		return err
	}))
}

// TestKeysOnAPageThatOpens: what is scanned before the page is there is done once it is;
// what may be half of something is not taken, and said.
func TestKeysOnAPageThatOpens(t *testing.T) {
	s, book := openDemo(t)
	players := skating(t, book)
	first, second := players[0].number, players[1].number
	s.scan(first)
	before := journal(t, book)
	s.slowly()
	run[bool](s, `location.reload(), true`)
	s.wait(`document.readyState === "complete" && document.querySelector("#main section") === null`)
	for _, r := range second {
		s.key(string(r))
	}
	s.key("Enter")
	s.do(wait(150))
	s.key("Enter") // for whom?
	s.wait(`document.getElementById("told").innerText.includes("before this page was there")`)
	if there := run[bool](s, `document.querySelector("#main section") !== null`); there {
		t.Fatal("the page was there before")
	}
	s.arrive()
	s.wait(shows(second))
	if after := journal(t, book); after != before {
		t.Errorf("recorded: %s", strings.TrimPrefix(after, before))
	}
}

// TestABrowserThatIsKilled: what was typed while the station was away is sent by the page of
// a browser that is started on the same profile.
func TestABrowserThatIsKilled(t *testing.T) {
	book, machine, port := demoBook(t), t.TempDir(), anyPort(t)
	profile, err := os.MkdirTemp("", "profile")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(profile) }) // what the browser began may still write there
	var browser *exec.Cmd
	inProfile := []chromedp.ExecAllocatorOption{chromedp.UserDataDir(profile), chromedp.ModifyCmdFunc(func(cmd *exec.Cmd) { browser = cmd })}
	link, stop := startStationOn(t, machine, "--port", port, "--book", book)
	s := openScreen(t, link, inProfile...)
	players := skating(t, book)
	s.scan(players[0].number)
	s.do(wait(6000)) // the browser has written what it kept
	stop()
	for _, line := range []string{"b6", players[1].number, "b7"} {
		s.typeLine(line)
	}
	s.wait(`document.getElementById("waiting").innerText === "3 waiting"`)
	s.do(wait(1000))
	if err := browser.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	link, stop = startStationOn(t, machine, "--port", port, "--book", book)
	defer stop()
	openScreen(t, link, inProfile...).wait(`document.querySelector("#board h2").innerText.startsWith("Today 2 of")`)
}

// shows tells whether a window of the browser has the card of a player.
func shows(player string) string {
	return `Object.values(localStorage).some((kept) => JSON.parse(kept).talk?.about?.number === "` + player + `")`
}

func journal(t *testing.T, book string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(book, "journal.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestWindowsThatGoAndComeAtOnce: one is loaded anew while the station is away, two once it
// is back, one is closed and one is opened. Each line is done, once.
func TestWindowsThatGoAndComeAtOnce(t *testing.T) {
	book, machine, port := demoBook(t), t.TempDir(), anyPort(t)
	link, stop := startStationOn(t, machine, "--port", port, "--book", book)
	s := openScreen(t, link)
	players := skating(t, book)
	windows := []*screen{s.another(), s.another(), s.another(), s.another()}
	stop()
	for i, w := range windows {
		for _, line := range []string{players[2*i].number, "b6", players[2*i+1].number, "b7", "4006381333931"} {
			w.typeLine(line)
		}
	}
	windows[0].do(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, page.Reload, page.ReloadParams{})
		return err
	}))
	before := journal(t, book)
	s.do(wait(5000)) // then nobody looks at what comes of a line
	link, stop = startStationOn(t, machine, "--port", port, "--book", book)
	defer stop()
	windows[3].close()
	run[bool](windows[1], `setTimeout(() => location.reload()), true`)
	opened := s.letIn(link)
	run[bool](windows[2], `setTimeout(() => location.reload()), true`)
	address, _, _ := strings.Cut(link, "?")
	windows[0].do(chromedp.Navigate(address))
	windows[0].arrive()
	opened.wait(`document.querySelector("#board h2").innerText.startsWith("Today 8 of")`)
	left := `Object.values(localStorage).map((kept) => JSON.parse(kept)).reduce(([lines, waits], kept) => [lines + kept.lines.length + (kept.guests?.length || 0), waits + (kept.talk.waiting?.length || 0)], [0, 0]).join()`
	opened.wait(left + ` === "0,4"`)
	if grinds := strings.Count(strings.TrimPrefix(journal(t, book), before), `"kind":"grind"`); grinds != 8 {
		t.Errorf("%d grinds", grinds)
	}
}
