package main

import (
	"bufio"
	"context"
	"net"
	"net/http"
	"os"
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
	}{
		{address + "?token=A", "", http.StatusUnauthorized}, {link, "evil.example", http.StatusForbidden}, {link, "", http.StatusOK},
		{link, "", http.StatusUnauthorized}, {address, "", http.StatusUnauthorized},
	} {
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
		if try.want == http.StatusOK {
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

// TestNobodyReadsTheLinkOfOthers starts the station with a stand-in for what opens a
// browser: what every account of the machine can read of a program, its arguments, does not
// hold the token, and the file that is named there is for its owner alone.
func TestNobodyReadsTheLinkOfOthers(t *testing.T) {
	program, dir := buildProgram(t), t.TempDir()
	book, told, machine := filepath.Join(dir, "book"), filepath.Join(dir, "told"), filepath.Join(dir, "machine")
	runLine(t, "init", "--club", "Skarn Harbour Terns", "--book", book)
	standIn := "#!/bin/sh\necho \"$*\" > " + told + ".new\ntr '\\0' ' ' < /proc/$PPID/cmdline >> " + told + ".new\nmv " + told + ".new " + told + "\n"
	if err := os.WriteFile(filepath.Join(dir, "xdg-open"), []byte(standIn), 0o755); err != nil {
		t.Fatal(err)
	}
	environment := append(os.Environ(), "STEELTALLY_MACHINE="+machine, "DISPLAY=:0", "PATH="+dir+":"+os.Getenv("PATH"))
	port := anyPort(t)
	cmd := exec.CommandContext(t.Context(), program, "station", "--port", port, "--book", book)
	cmd.Env = environment
	link, stop := startedStation(t, cmd)
	defer stop()
	readTold := func() string {
		for {
			if text, err := os.ReadFile(told); err == nil && os.Remove(told) == nil {
				return string(text)
			}
			time.Sleep(10 * time.Millisecond)
		}
	}
	checkTold(t, readTold(), link)

	// A second start opens the screen of the first, and its link opens it once.
	again := exec.CommandContext(t.Context(), program, "station", "--port", port, "--book", book)
	again.Env = environment
	out, err := again.Output()
	second := strings.TrimSpace(string(out))
	if err != nil || second == link || !strings.HasPrefix(second, "http://127.0.0.1:"+port+"/?token=") {
		t.Fatalf("%v: %s", err, out)
	}
	checkTold(t, readTold(), second)
	knock(t, second)
	if response, err := http.Get(link); err != nil || response.StatusCode != http.StatusUnauthorized {
		t.Errorf("the first link, when there is a second one: %+v, %v", response, err)
	}
	elsewhere := exec.CommandContext(t.Context(), program, "station", "--port", port, "--book", filepath.Join(dir, "other"))
	elsewhere.Env = environment
	runLine(t, "init", "--club", "Skarn Harbour Terns", "--book", filepath.Join(dir, "other"))
	if out, err := elsewhere.CombinedOutput(); err == nil || !strings.Contains(string(out), "shows the book "+book) || strings.Contains(string(out), "token") {
		t.Errorf("%v: %s", err, out)
	}
}

// checkTold looks at what the stand-in was started with, and at the page that it was told of.
func checkTold(t *testing.T, told, link string) {
	t.Helper()
	_, token, _ := strings.Cut(link, "token=")
	page, _, _ := strings.Cut(strings.TrimPrefix(told, "file://"), "\n")
	if token == "" || strings.Contains(told, token) || !strings.HasPrefix(told, "file:///") {
		t.Fatalf("a browser is opened with %q; the link is %s", told, link)
	}
	info, err := os.Stat(page)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("%s: %v, %v", page, info, err)
	}
	if text, err := os.ReadFile(page); err != nil || !strings.Contains(string(text), link) {
		t.Errorf("%v: %s", err, text)
	}
}

// anyPort is a port that was free a moment ago.
func anyPort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	_, port, _ := net.SplitHostPort(l.Addr().String())
	return port
}

// startedStation starts the station and gives the link that it prints.
func startedStation(t *testing.T, cmd *exec.Cmd) (link string, stop func()) {
	t.Helper()
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	if !lines.Scan() {
		t.Fatal("no link was printed")
	}
	return lines.Text(), func() {
		cmd.Process.Signal(syscall.SIGTERM)
		if err := cmd.Wait(); err != nil {
			t.Error(err)
		}
	}
}
