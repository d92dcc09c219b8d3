//go:build outside

package main

import (
	"strings"
	"testing"
	"time"
)

// TestKeptLinesOnTheScreen: lines are typed while the station is away, ten minutes before
// it is back. Each is done as it was meant and as of then; what can't be waits in a list,
// also over a new load of the page.
func TestKeptLinesOnTheScreen(t *testing.T) {
	book := demoBook(t)
	port := anyPort(t)
	machine := t.TempDir()
	link, stop := startStationOn(t, machine, "--port", port, "--book", book)
	s := openScreen(t, link)
	players := skating(t, book)
	first, second := players[0], players[1]
	s.scan(first.number)
	stop()
	run[bool](s, `(() => { const now = Date.now; window.now = now; Date.now = () => now() - 600000; return true; })()`)
	for _, line := range []string{"b6", "4006381333931", "", second.number, "b7"} {
		s.typeLine(line)
	}
	s.key("F8") // the bin
	s.typeLine("l1")
	s.wait(`document.getElementById("waiting").innerText === "6 waiting" && document.getElementById("kept").innerText.includes("b7 · ")`)
	s.wait(`document.querySelector("nav [aria-current]").dataset.screen === "bin"`)
	s.pictures("kept")
	run[bool](s, `Date.now = window.now, true`)
	link, stop = startStationOn(t, machine, "--port", port, "--book", book)
	defer stop()
	s.letIn(link)
	s.wait(`document.getElementById("trouble").hidden && document.getElementById("waiting").innerText === ""`)
	const waits = `document.getElementById("waits").innerText.includes("3 lines not done as meant") && document.querySelectorAll(".waits li").length === 3`
	s.wait(waits)
	list := s.text("#waits")
	for _, want := range []string{": 4006381333931", " after 4006381333931: Enter", ": l1", "l1 is a key of the jig"} {
		if !strings.Contains(list, want) {
			t.Errorf("%q is not in the list: %s", want, list)
		}
	}
	s.wait(`document.querySelector("nav [aria-current]").dataset.screen === "bin"`)
	s.pictures("waits")
	for _, p := range []skater{first, second} {
		if late := groundLate(t, book, p.number); late < 9*time.Minute || late > 20*time.Minute {
			t.Errorf("%d: ground %v before it was noted", p.sweater, late)
		}
	}
	run[bool](s, `location.reload(), true`)
	s.wait(`window.now === undefined && document.readyState === "complete" && ` + waits)
	s.arrive()
	for _, line := range []string{"d1", "d2", "d3"} {
		s.press(line)
	}
	s.wait(`document.getElementById("waits").innerText === ""`)
}

// groundLate is how long after it happened the latest grind of a player was noted.
func groundLate(t *testing.T, book, player string) time.Duration {
	t.Helper()
	history := fromJSON[struct {
		Events []struct {
			Kind     string
			Happened time.Time
			Noted    time.Time
		}
	}](t, book, "history", player)
	for i := len(history.Events) - 1; i >= 0; i-- {
		if e := history.Events[i]; e.Kind == "grind" {
			return e.Noted.Sub(e.Happened)
		}
	}
	return 0
}
