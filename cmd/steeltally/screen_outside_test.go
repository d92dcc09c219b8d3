//go:build outside

package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"steeltally/cmd/steeltally/internal/cli"
)

// screen is a station with a real browser before it.
type screen struct {
	t     *testing.T
	ctx   context.Context
	link  string // that opens it
	keys  int    // pressed by a person
	close func() // of a further window
}

// demoBook makes the invented club's book, once for all tests of the screen.
func demoBook(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	command(t, "demo", "--dir", dir)
	book := filepath.Join(dir, "book")
	// A session begins now: what was ground before it, whatever the day, is not counted for it.
	command(t, "game", "add", time.Now().UTC().Format(time.RFC3339), "--practice", "--book", book)
	return book
}

// command runs a command line beside the station.
func command(t *testing.T, line ...string) string {
	t.Helper()
	var out bytes.Buffer
	w := cli.World{
		Stdin: strings.NewReader(""), Stdout: &out, Stderr: &out, Now: time.Now, Self: os.Args[0],
		Getenv: func(string) string { return "" },
	}
	if code := cli.Main(t.Context(), w, line); code != 0 {
		t.Fatalf("%v: exit code %d: %s", line, code, &out)
	}
	return out.String()
}

// startStation starts the program's station and gives the link that it prints.
func startStation(t *testing.T, flags ...string) (link string, stop func()) {
	t.Helper()
	return startStationOn(t, t.TempDir(), flags...)
}

// startStationOn starts it with the settings of a machine.
func startStationOn(t *testing.T, machine string, flags ...string) (link string, stop func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	read, write := io.Pipe()
	w := cli.World{
		Stdin: strings.NewReader(""), Stdout: write, Stderr: io.Discard, Now: time.Now, Self: os.Args[0],
		Getenv: func(name string) string {
			if name == "STEELTALLY_MACHINE" {
				return machine
			}
			return ""
		},
	}
	ended := make(chan int, 1)
	go func() { ended <- cli.Main(ctx, w, append([]string{"station", "--no-open"}, flags...)) }()
	link, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	go io.Copy(io.Discard, read)
	stop = func() {
		cancel()
		if code := <-ended; code != 0 {
			t.Errorf("the station ended with exit code %d", code)
		}
	}
	return strings.TrimSpace(link), stop
}

// openScreen opens the link in a browser of its own.
func openScreen(t *testing.T, link string, more ...chromedp.ExecAllocatorOption) *screen {
	t.Helper()
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]),
		chromedp.NoSandbox, chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("autoplay-policy", "no-user-gesture-required"),
		chromedp.Flag("use-fake-device-for-media-stream", true), chromedp.Flag("use-fake-ui-for-media-stream", true))
	options = append(options, more...)
	ctx, stop := chromedp.NewContext(t.Context(), chromedp.WithAllocatorOptions(options...))
	t.Cleanup(stop)
	s := &screen{t: t, ctx: ctx, link: link}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1024, 768)); err != nil { // the browser lives as long as this context
		t.Fatal(err)
	}
	s.do(chromedp.Navigate(link))
	s.arrive()
	return s
}

// openDemo opens a screen on the book of the invented club.
func openDemo(t *testing.T) (s *screen, book string) {
	t.Helper()
	book = demoBook(t)
	link, stop := startStation(t, "--port", "0", "--book", book)
	t.Cleanup(stop)
	return openScreen(t, link), book
}

// another opens a second window of the same browser.
func (s *screen) another() *screen {
	s.t.Helper()
	address, _, _ := strings.Cut(s.link, "?") // the link opens one window, and let this browser in
	return s.letIn(address)
}

// letIn opens an address, or a page on this disk, in another window of the same browser.
func (s *screen) letIn(address string) *screen {
	s.t.Helper()
	ctx, stop := chromedp.NewContext(s.ctx)
	s.t.Cleanup(stop)
	other := &screen{t: s.t, ctx: ctx, link: s.link, close: stop}
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		s.t.Fatal(err)
	}
	other.arrive()
	return other
}

// arrive waits until the screen is there, also over a page that leads on to it.
func (s *screen) arrive() {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	for {
		there, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`location.search === "" && document.querySelector("#main section") !== null`))
		if err == nil && there {
			s.do(wait(300)) // what is begun before a page is there is not taken
			return
		}
		if ctx.Err() != nil {
			s.t.Fatalf("the screen is not there: %v", err)
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// patience is how long anything on the screen may take before the test gives up.
const patience = 30 * time.Second

func (s *screen) do(steps ...chromedp.Action[chromedp.Void]) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		s.t.Fatal(err)
	}
}

// run runs a script on the page and gives what it comes to.
func run[T any](s *screen, script string) T {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		s.t.Fatalf("%s: %v", script, err)
	}
	return value
}

// wait waits until a script on the page is true.
func (s *screen) wait(script string) {
	s.t.Helper()
	for end := time.Now().Add(patience); !run[bool](s, script); time.Sleep(10 * time.Millisecond) {
		if time.Now().After(end) {
			s.t.Fatalf("still not: %s; told: %s", script, s.text("#told"))
		}
	}
}

// part is a part of a test on the same screen.
func (s *screen) part(name string, part func(t *testing.T)) {
	whole := s.t
	defer func() { s.t = whole }()
	whole.Run(name, func(t *testing.T) {
		s.t = t
		part(t)
	})
}

// scan types a line as a hand scanner does, all at once.
func (s *screen) scan(line string) string {
	s.t.Helper()
	return s.send(line)
}

// press types a line as a person does, whose keys are counted.
func (s *screen) press(line string) string {
	s.t.Helper()
	s.keys += len(line) + 1
	return s.send(line)
}

// send types a line and waits until what came of it is told.
func (s *screen) send(line string) string {
	s.t.Helper()
	run[bool](s, `document.getElementById("told").replaceChildren(), true`)
	s.typeLine(line)
	s.wait(`document.querySelector("#told .told") !== null`)
	return s.text("#told")
}

// typeLine presses the keys of a line and Enter.
func (s *screen) typeLine(line string) {
	s.t.Helper()
	if line == "" {
		s.do(wait(100)) // a person's Enter comes later than the second one of a scanner
	}
	for _, r := range line {
		s.key(string(r))
	}
	s.key("Enter")
}

// key presses one key.
func (s *screen) key(key string) {
	s.t.Helper()
	press := input.DispatchKeyEventParams{Type: input.DispatchKeyEventTypeKeyDown, Key: key}
	if len([]rune(key)) == 1 {
		press.Text = key
	}
	s.do(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, input.DispatchKeyEvent, press)
		return err
	}))
}

func (s *screen) text(selector string) string {
	s.t.Helper()
	return run[string](s, fmt.Sprintf("document.querySelector(%q)?.innerText ?? ''", selector))
}

// wait lets some milliseconds pass.
func wait(ms time.Duration) chromedp.Action[chromedp.Void] {
	return chromedp.Sleep(ms * time.Millisecond)
}

// picture keeps a screenshot among the artefacts, which git ignores.
func (s *screen) picture(name string, width, height int64, scheme string) {
	s.t.Helper()
	features := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}
	s.do(chromedp.EmulateViewport(width, height), chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, features)
		return err
	}), chromedp.Sleep(100*time.Millisecond))
	png, err := chromedp.Run(s.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		s.t.Fatal(err)
	}
	folder := filepath.Join("testdata", "screens")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		s.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, fmt.Sprintf("%s-%d-%s.png", name, width, scheme)), png, 0o644); err != nil {
		s.t.Fatal(err)
	}
}

// pictures keeps a screen at both sizes and in both schemes.
func (s *screen) pictures(name string) {
	s.t.Helper()
	for _, scheme := range []string{"dark", "light"} {
		s.picture(name, 1920, 1080, scheme)
		s.picture(name, 1024, 768, scheme)
	}
}
