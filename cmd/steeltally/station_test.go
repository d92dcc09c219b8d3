package main

import (
	"bufio"
	"context"
	"net/http"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestStationAsAProcess starts the station as a person would: one line with one link, in
// by that link and not otherwise, and a clean end when it is told to, with a window open.
func TestStationAsAProcess(t *testing.T) {
	program, book := buildProgram(t), filepath.Join(t.TempDir(), "book")
	if out, err := exec.Command(program, "init", "--club", "Skarn Harbour Terns", "--book", book).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	cmd := exec.CommandContext(ctx, program, "station", "--port", "0", "--no-open", "--book", book)
	cmd.Env = append(cmd.Environ(), "STEELTALLY_MACHINE="+t.TempDir())
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	if !lines.Scan() || !regexp.MustCompile(`^http://127\.0\.0\.1:[0-9]+/\?token=[A-Z0-9]{26}$`).MatchString(lines.Text()) {
		t.Fatalf("it printed %q", lines.Text())
	}
	link := lines.Text()
	knock(t, link)
	if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	if lines.Scan() {
		t.Errorf("it printed more: %q", lines.Text())
	}
	if err := cmd.Wait(); err != nil {
		t.Errorf("told to end after %s: %v", time.Since(start), err)
	}
	if out, err := exec.Command(program, "verify", "--book", book).CombinedOutput(); err != nil {
		t.Errorf("%v: %s", err, out)
	}
}

// knock tries the station's door, and leaves a window open.
func knock(t *testing.T, link string) {
	t.Helper()
	address, _, _ := strings.Cut(link, "?")
	for _, try := range []struct {
		url, host string
		want      int
	}{{link, "", http.StatusSeeOther}, {address, "", http.StatusUnauthorized}, {address + "?token=A", "", http.StatusUnauthorized}, {link, "evil.example", http.StatusForbidden}} {
		request, err := http.NewRequest(http.MethodGet, try.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		request.Host = try.host
		response, err := http.DefaultTransport.RoundTrip(request)
		if err != nil {
			t.Fatal(err)
		}
		response.Body.Close()
		if response.StatusCode != try.want {
			t.Errorf("%+v: %s", try, response.Status)
		}
		if try.want == http.StatusSeeOther {
			leaveOpen(t, address+"events", response.Cookies())
		}
	}
}

// leaveOpen holds the line open on which a window hears of changes.
func leaveOpen(t *testing.T, url string, cookies []*http.Cookie) {
	t.Helper()
	request, err := http.NewRequest(http.MethodGet, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, cookie := range cookies {
		request.AddCookie(cookie)
	}
	response, err := http.DefaultTransport.RoundTrip(request)
	if err != nil || response.StatusCode != http.StatusOK {
		t.Fatalf("%v, %+v", err, response)
	}
	t.Cleanup(func() { response.Body.Close() })
}
