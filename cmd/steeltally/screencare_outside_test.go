//go:build outside

package main

import (
	"archive/tar"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// The rules of WCAG 2.2 A and AA are checked by axe-core, which is no part of the
// program: this version of it and no other.
const (
	axeVersion = "4.14.1"
	axeSum     = "e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745"
)

// axe fetches the checker.
func axe(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	cmd := exec.Command("npm", "pack", "--silent", "axe-core@"+axeVersion)
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("the checker of screens can't be had: %v: %s", err, out)
	}
	pack, err := os.ReadFile(filepath.Join(dir, "axe-core-"+axeVersion+".tgz"))
	if err != nil {
		t.Fatal(err)
	}
	if sum := sha256.Sum256(pack); hex.EncodeToString(sum[:]) != axeSum {
		t.Fatal("the checker of screens is not the one that was looked at")
	}
	unzipped, err := gzip.NewReader(strings.NewReader(string(pack)))
	if err != nil {
		t.Fatal(err)
	}
	for files := tar.NewReader(unzipped); ; {
		header, err := files.Next()
		if err != nil {
			t.Fatalf("the checker's pack: %v", err)
		}
		if header.Name == "package/axe.min.js" {
			script, err := io.ReadAll(files)
			if err != nil {
				t.Fatal(err)
			}
			return string(script)
		}
	}
}

// TestEveryScreenCanBeReadByEverybody checks every screen in both schemes, also zoomed.
func TestEveryScreenCanBeReadByEverybody(t *testing.T) {
	checker := axe(t)
	s, _ := openDemo(t)
	run[string](s, checker+"; 'read'")
	s.findsFaults()
	checked := 0
	look := func(name string) {
		for _, scheme := range []string{"light", "dark"} {
			s.picture(name+"-zoomed", 512, 384, scheme) // 200 % of 1024 × 768
			s.broken(name + " zoomed, " + scheme)
			if wide := run[float64](s, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
				t.Errorf("%s: %v pixels stand over the edge at 200 %%", name, wide)
			}
			s.picture(name, 1024, 768, scheme)
			s.broken(name + ", " + scheme)
			checked += 2
		}
	}
	look("empty")
	s.press("8")
	s.wait(`document.querySelector(".plot svg") !== null`)
	look("jig")
	s.press("8")
	s.press("")
	s.press("")
	look("asked")
	s.press("4006381333931")
	look("wrong")
	s.press("8")
	s.press("el")
	look("broken")
	s.press("ed")
	look("question")
	for _, key := range []string{"F2", "F3", "F4", "F8", "F9"} {
		s.key(key)
		s.wait(fmt.Sprintf(`document.querySelector("nav [aria-current] kbd")?.innerText === %q`, key))
		look("screen-" + key)
	}
	run[bool](s, `document.querySelector("footer [data-screen=scanner]").click(), true`)
	s.wait(`document.querySelectorAll(".scanner svg").length === 3`)
	look("scanner")
	if checked < 44 {
		t.Errorf("only %d screens were checked", checked)
	}
}

// findsFaults makes sure that the checker sees what is wrong: a picture without words.
func (s *screen) findsFaults() {
	s.t.Helper()
	found := run[string](s, `document.getElementById("main").insertAdjacentHTML("beforeend", "<img id=fault src=/assets/icon.svg>"),
		axe.run(document).then((r) => (document.getElementById("fault").remove(), r.violations.map((v) => v.id).join(" ")))`)
	if !strings.Contains(found, "image-alt") {
		s.t.Fatalf("the checker found %q in a picture without words", found)
	}
}

// broken lists what a screen does wrong.
func (s *screen) broken(name string) {
	s.t.Helper()
	found := run[string](s, `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}).then((r) =>
		r.passes.length < 5 ? "too little was checked" :
		r.violations.map((v) => v.impact + " " + v.id + ": " + v.nodes.map((n) => n.html.slice(0, 120)).slice(0, 3).join(" | ")).join("\n"))`)
	if found != "" {
		s.t.Errorf("%s: %s", name, found)
	}
}

// TestWindowsStayInStep: what one window records, the other one shows, and so it is with
// a command line.
func TestWindowsStayInStep(t *testing.T) {
	s, book := openDemo(t)
	players := skating(t, book)
	other := s.another()
	other.scan(players[3].number)
	s.scan(players[3].number)
	if told := s.press("b7"); !strings.Contains(told, "RECORDED") {
		t.Fatal(told)
	}
	other.wait(`document.querySelector("#board h2").innerText.startsWith("Today 1 of") && document.querySelector(".last").innerText.includes(" s ago")`)
	command(t, "grind", players[4].number, "--book", book)
	for _, window := range []*screen{s, other} {
		window.wait(`document.querySelector("#board h2").innerText.startsWith("Today 2 of")`)
	}
	const running = `!document.getElementById("clock").hidden`
	s.press("er")
	other.wait(running)
	other.press("ed")
	if told := other.press("nothing"); !strings.Contains(told, "ANSWER") {
		t.Errorf("%s", told)
	}
	for _, answer := range []string{"", "", "n"} { // nothing had broken, nobody counted shifts or looked
		other.press(answer)
	}
	s.wait("!(" + running + ")")
}

// TestTheStationIsLost: it ends while a screen is open and lines come; they are kept,
// that is said, and each is recorded once when it is back.
func TestTheStationIsLost(t *testing.T) {
	book := demoBook(t)
	port := anyPort(t)
	machine := t.TempDir()
	link, stop := startStationOn(t, machine, "--port", port, "--book", book)
	s := openScreen(t, link)
	players := skating(t, book)
	s.press("g")
	lost := time.Now()
	stop()
	for _, p := range players[:5] {
		s.typeLine(p.number)
	}
	s.wait(`!document.getElementById("trouble").hidden && document.getElementById("waiting").innerText === "5 waiting"`)
	s.pictures("lost")
	_, stop = startStationOn(t, machine, "--port", port, "--book", book)
	defer stop()
	s.wait(`document.getElementById("trouble").innerText.startsWith("This page is not let in any more")`)
	s.letIn("file://" + filepath.Join(machine, "station", port+".html")) // as a browser is told of it
	s.wait(`document.getElementById("trouble").hidden && document.getElementById("waiting").innerText === ""`)
	s.wait(`document.querySelector("#board h2").innerText.startsWith("Today 5 of")`)
	for _, p := range players[:5] {
		history := fromJSON[struct {
			Events []struct {
				Kind  string
				Noted time.Time
			}
		}](t, book, "history", p.number)
		grinds := 0
		for _, e := range history.Events {
			if e.Kind == "grind" && e.Noted.After(lost) {
				grinds++
			}
		}
		if grinds != 1 {
			t.Errorf("%d: %d grinds were recorded", p.sweater, grinds)
		}
	}
}

// TestAScanInterruptsAPerson: what was half typed when a scan comes is no part of it.
func TestAScanInterruptsAPerson(t *testing.T) {
	s, book := openDemo(t)
	player := skating(t, book)[2]
	s.key("m")
	s.key(" ")
	s.do(wait(500))
	if told := s.scan(player.number); strings.Contains(told, "NOT RECORDED") {
		t.Errorf("%s", told)
	}
	s.wait(fmt.Sprintf(`document.querySelector(".sweater")?.innerText === "%d" && document.getElementById("line").value === ""`, player.sweater))
}

// TestCapsLockChangesNothing: a key is the same key with Caps Lock on.
func TestCapsLockChangesNothing(t *testing.T) {
	s, book := openDemo(t)
	player := skating(t, book)[2]
	s.scan(player.number)
	capital := func(key string) {
		s.t.Helper()
		run[bool](s, fmt.Sprintf(`document.body.dispatchEvent(new KeyboardEvent("keydown", {key: %q, bubbles: true, modifierCapsLock: true}))`, key))
	}
	capital("X")
	s.wait(`document.getElementById("line").value === "x"`)
	if told := s.send(""); !strings.Contains(told, "RECORDED") {
		t.Errorf("%s", told)
	}
	capital("r")
	capital("1")
	s.wait(`document.getElementById("line").value === "R1"`)
}

// TestPicturesOnTheScreen drops a picture of a tag on the page, and takes one with the
// browser's own mock of a camera, on which there is no tag.
func TestPicturesOnTheScreen(t *testing.T) {
	s, book := openDemo(t)
	piece := removedPieces(t, book, 1)[0]
	run[string](s, fmt.Sprintf(`fetch("/preview/%s").then((r) => r.blob()).then((b) => {
		const carried = new DataTransfer();
		carried.items.add(new File([b], "tag.png", {type: "image/png"}));
		document.dispatchEvent(new DragEvent("drop", {dataTransfer: carried, bubbles: true}));
		return "dropped";
	})`, piece))
	n, err := inventory.ParseNumber(piece)
	if err != nil {
		t.Fatal(err)
	}
	s.wait(fmt.Sprintf(`document.querySelector(".card h2")?.innerText.includes(%q) === true`, n.Short()))
	run[bool](s, `document.getElementById("camera").click(), true`)
	s.wait(`document.getElementById("video").videoWidth > 0`)
	s.picture("camera", 1024, 768, "light")
	run[bool](s, `document.getElementById("shoot").click(), true`)
	s.wait(`document.getElementById("told").innerText.includes("no tag was found")`)
}

// TestAClosedWindowLeavesItsLines: what a window could not send another one sends once it is
// closed, and not before.
func TestAClosedWindowLeavesItsLines(t *testing.T) {
	s, book := openDemo(t)
	players := skating(t, book)
	closed, stuck := s.another(), s.another()
	for i, other := range []*screen{closed, stuck} {
		other.press("g")
		run[bool](other, `window.send = window.fetch, window.fetch = () => new Promise(() => {}), true`)
		other.typeLine(players[2*i].number)
		other.typeLine(players[2*i+1].number)
	}
	closed.close()
	ground := func(count string) string {
		return `document.querySelector("#board h2").innerText.startsWith("Today ` + count + ` of")`
	}
	s.wait(ground("2"))
	stuckLines := run[string](stuck, `Object.entries(localStorage).filter(([name]) => name.startsWith("station.")).map(([, kept]) => JSON.parse(kept).lines.length).sort().join()`)
	if stuckLines != "0,2" {
		t.Errorf("%s lines are kept", stuckLines)
	}
	run[bool](stuck, `window.fetch = window.send, location.reload(), true`)
	s.wait(ground("4"))
}
