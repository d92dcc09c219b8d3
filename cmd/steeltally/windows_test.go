package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/demo"
)

// TestBusyWindowsLeaveTheCommandLineItsTurn: three windows ask without a pause for what
// takes longest, and each command line beside them gets the book.
func TestBusyWindowsLeaveTheCommandLineItsTurn(t *testing.T) {
	if testing.Short() {
		t.Skip("it makes a club's one and a half seasons")
	}
	program, book := buildProgram(t), filepath.Join(t.TempDir(), "book")
	if _, err := demo.Write(t.Context(), book, demo.Options{End: time.Now(), Seed: 1}); err != nil {
		t.Fatal(err)
	}
	today := time.Now()
	if out, err := exec.Command(program, "trip", "add", "Away", "--from", today.Format(time.DateOnly), "--to", today.AddDate(0, 0, 3).Format(time.DateOnly), "--book", book).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	address, cookies := stationProcess(t, program, book)
	ctx, stop := context.WithCancel(t.Context())
	var windows sync.WaitGroup
	var answers atomic.Int64
	for window := range 3 {
		windows.Go(func() {
			for i := 0; ctx.Err() == nil; i++ {
				if askStation(ctx, t, busyRequest(address, window, i), cookies) {
					answers.Add(1)
				}
			}
		})
	}
	refused := 0
	for i := range 60 {
		out, err := exec.Command(program, "grind", "17", "--key", fmt.Sprint("turn ", i), "--book", book).CombinedOutput()
		if err != nil {
			refused++
			t.Logf("%v: %s", err, out)
		}
	}
	stop()
	windows.Wait()
	t.Logf("%d answers to the windows meanwhile", answers.Load())
	if refused > 0 || answers.Load() == 0 {
		t.Errorf("%d of 60 command lines were refused; the windows had %d answers", refused, answers.Load())
	}
}

// busyRequest is one of what a window asks for, the long ones included.
func busyRequest(address string, window, i int) *http.Request {
	bin := `"1100000177","1100000274","1100000371"`
	talk := []string{`{"screen":"due"}`, `{"screen":"tags"}`, `{"screen":"bin","bin":[` + bin + `]}`, `{"screen":"jig","grinding":true}`,
		`{"screen":"spares"}`, `{"screen":"trip"}`, `{"screen":"trip","trip":"Away"}`}[(window+i)%7]
	method, path, body := http.MethodPost, "/part", fmt.Sprintf(`{"talk":%s}`, talk)
	switch (window + i) % 5 {
	case 0:
		path = "/slow"
	case 1:
		method, path, body = http.MethodGet, "/plot/17?fresh=1", ""
	case 2:
		path, body = "/line", fmt.Sprintf(`{"key":"%d %d","line":"17","talk":{"screen":"jig","grinding":true}}`, window, i)
	}
	r, err := http.NewRequest(method, address+path, strings.NewReader(body))
	if err != nil {
		panic(err)
	}
	return r
}

func askStation(ctx context.Context, t *testing.T, r *http.Request, cookies []*http.Cookie) (answered bool) {
	for _, cookie := range cookies {
		r.AddCookie(cookie)
	}
	response, err := http.DefaultClient.Do(r.WithContext(ctx))
	if err != nil {
		if ctx.Err() == nil {
			t.Error(err)
		}
		return false
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if ctx.Err() != nil {
		return false
	}
	if err != nil || response.StatusCode != http.StatusOK || bytes.Contains(text, []byte("is in use")) {
		t.Errorf("%s: %s, %v: %s", r.URL, response.Status, err, text)
	}
	return true
}

// stationProcess starts the station as a process and is let in.
func stationProcess(t *testing.T, program, book string, flags ...string) (address string, cookies []*http.Cookie) {
	t.Helper()
	cmd := exec.Command(program, append([]string{"station", "--port", "0", "--no-open", "--book", book}, flags...)...)
	cmd.Env = append(cmd.Environ(), "STEELTALLY_MACHINE="+t.TempDir())
	link, stop := startedStation(t, cmd)
	t.Cleanup(stop)
	response, err := http.DefaultTransport.(*http.Transport).Clone().RoundTrip(mustGet(t, link))
	if err != nil || len(response.Cookies()) == 0 {
		t.Fatalf("not let in: %v, %+v", err, response)
	}
	response.Body.Close()
	address, _, _ = strings.Cut(link, "/?")
	return address, response.Cookies()
}

func mustGet(t *testing.T, url string) *http.Request {
	t.Helper()
	r, err := http.NewRequest(http.MethodGet, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
