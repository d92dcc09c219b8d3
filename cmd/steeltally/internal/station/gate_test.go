package station

import (
	"bytes"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// caller is somebody who asks the station something.
type caller struct{ host, origin, site, method, path, entry string }

// mine tells whether the station's own page could have sent it.
func (c caller) mine(port string) bool {
	ownHost := c.host == "127.0.0.1:"+port || c.host == "localhost:"+port
	ownOrigin := c.origin == "" || c.origin == "http://"+c.host
	ownSite := c.site == "" || c.site == "same-origin" || c.site == "none"
	return ownHost && ownOrigin && ownSite && (c.entry == "cookie" || c.entry == "two cookies")
}

// TestNobodyElseIsLetIn tries every mixture of host, origin, site, method and key: none
// but the station's own page gets any data or writes anything.
func TestNobodyElseIsLetIn(t *testing.T) {
	s := newStand(t)
	port := strings.Split(s.server.Listener.Addr().String(), ":")[1]
	before, rows, open := s.events(), 0, 0
	used := s.station.gate.link.fresh()
	if !s.station.gate.link.take(used) {
		t.Fatal("a fresh link opens nothing")
	}
	old := s.station.gate.link.fresh()
	s.now = s.now.Add(time.Minute)
	tokens := map[string]string{"wrong token": "tokem", "used link": used, "old link": old}
	for _, host := range []string{"127.0.0.1:" + port, "localhost:" + port, "127.0.0.1", "evil.example:" + port, "127.0.0.1.nip.example:" + port, "[::1]:" + port, ""} {
		for _, origin := range []string{"", "http://127.0.0.1:" + port, "http://evil.example", "null", "http://127.0.0.1:1"} {
			for _, site := range []string{"", "none", "same-origin", "same-site", "cross-site"} {
				for _, entry := range []string{"cookie", "two cookies", "wrong cookie", "another port's cookie", "nothing", "wrong token", "used link", "old link"} {
					for path, method := range map[string]string{"/line": http.MethodPost, "/part": http.MethodPost, "/": http.MethodGet} {
						c := caller{host, origin, site, method, path, entry}
						rows++
						if c.try(t, s, port, tokens[entry]) {
							open++
						}
					}
				}
			}
		}
	}
	if rows < 200 || open == 0 {
		t.Fatalf("%d callers were tried, %d let in", rows, open)
	}
	doubts := s.kind("clock-doubted") // of the clock, which goes on by days between two of them
	if written := s.events() - before - doubts; written != open/3 {
		t.Errorf("%d entries were written, %d lines of the own page", written, open/3)
	}
}

// try sends one request and tells whether it was let in.
func (c caller) try(t *testing.T, s *stand, port, token string) bool {
	t.Helper()
	path := c.path
	if token != "" {
		path += "?token=" + token
	}
	body := `{"key":"` + strings.Join([]string{c.host, c.origin, c.site, c.entry}, " ") + `","line":"x","talk":{"screen":"jig","about":{"number":"` +
		playerNumber + `","player":"` + playerNumber + `","target":{"Player":"` + playerNumber + `"}}}}`
	request, err := http.NewRequest(c.method, s.server.URL+path, bytes.NewBufferString(body))
	must(t, err)
	request.Host = c.host
	for name, value := range map[string]string{"Origin": c.origin, "Sec-Fetch-Site": c.site} {
		if value != "" {
			request.Header.Set(name, value)
		}
	}
	switch c.entry {
	case "cookie":
		request.AddCookie(s.cookie)
	case "two cookies": // another program set one for a longer path, which a browser sends first
		request.AddCookie(&http.Cookie{Name: s.cookie.Name, Value: "another program's"})
		request.AddCookie(s.cookie)
	case "wrong cookie":
		request.AddCookie(&http.Cookie{Name: s.cookie.Name, Value: strings.ToLower(s.cookie.Value)})
	case "another port's cookie":
		request.AddCookie(&http.Cookie{Name: "steeltally-1", Value: s.cookie.Value})
	}
	s.now = s.now.Add(2 * 60e9)
	response, err := http.DefaultTransport.RoundTrip(request)
	must(t, err)
	defer response.Body.Close()
	if c.host == "" { // the transport then sends the address itself
		c.host = "127.0.0.1:" + port
	}
	letIn := response.StatusCode == http.StatusOK
	if letIn != c.mine(port) {
		t.Errorf("%+v: %s", c, response.Status)
	}
	return letIn
}

// playerNumber is the first player's of a stand.
const playerNumber = "7100000167"

// follow asks for an address as a browser does that was sent there from elsewhere.
func (s *stand) follow(address string, headers map[string]string) *http.Response {
	s.t.Helper()
	request, err := http.NewRequest(http.MethodGet, address, nil)
	must(s.t, err)
	request.Header.Set("Sec-Fetch-Site", "cross-site")
	request.Header.Set("Sec-Fetch-Mode", "navigate")
	request.Header.Set("Sec-Fetch-Dest", "document")
	for name, value := range headers {
		request.Header.Set(name, value)
	}
	response, err := http.DefaultTransport.RoundTrip(request)
	must(s.t, err)
	response.Body.Close()
	return response
}

func TestTheLinkOpensTheScreen(t *testing.T) {
	s := newStand(t)
	response := s.follow(s.station.Offer().Link, nil)
	cookies := response.Cookies()
	if response.StatusCode != http.StatusOK || len(cookies) != 1 {
		t.Fatalf("%s, %+v", response.Status, cookies)
	}
	if c := cookies[0]; !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || c.Domain != "" || c.Value != s.cookie.Value {
		t.Errorf("%+v", c)
	}
}

// TestALinkOpensOnceForAMinute follows links again, late, after a newer one, and as no
// browser's window does.
func TestALinkOpensOnceForAMinute(t *testing.T) {
	s := newStand(t)
	opens := func(what, link string, want bool, headers map[string]string) {
		t.Helper()
		response := s.follow(link, headers)
		if opened := len(response.Cookies()) > 0; opened != want || opened != (response.StatusCode == http.StatusOK) {
			t.Errorf("%s: %s, %+v", what, response.Status, response.Cookies())
		}
	}
	first := s.station.Offer().Link
	for what, headers := range map[string]map[string]string{
		"in a frame": {"Sec-Fetch-Dest": "iframe"}, "by a script": {"Sec-Fetch-Dest": "empty"}, "by a script elsewhere": {"Origin": "http://evil.example"}, "ahead": {"Sec-Purpose": "prefetch"},
	} {
		opens(what, first, false, headers)
	}
	opens("the first time", first, true, nil)
	opens("again", first, false, nil)
	late := s.station.Offer().Link
	s.now = s.now.Add(time.Minute)
	opens("after a minute", late, false, nil)
	inTime := s.station.Offer().Link
	s.now = s.now.Add(59 * time.Second)
	opens("in time", inTime, true, nil)
	early := s.station.Offer().Link
	s.now = s.now.Add(-time.Second)
	opens("before it was made", early, false, nil)
	older := s.station.Offer().Link
	newer := s.station.Offer().Link
	opens("an older one", older, false, nil)
	opens("the newer one", newer, true, nil)
	if other := newStand(t); other.cookie.Value == s.cookie.Value {
		t.Error("two stations have one secret")
	}
}

// TestTheDoorIsThisAccountsAlone: the link is handed over in files that nobody else can
// read, which are gone when it was used, and which an earlier program's key goes with.
func TestTheDoorIsThisAccountsAlone(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0))
	s := newStand(t)
	s.options.Machine = filepath.Join(t.TempDir(), "machine.toml")
	key := filepath.Join(filepath.Dir(s.options.Machine), "station.key")
	must(t, os.WriteFile(key, []byte("of an earlier program"), 0o600))
	s.start()
	shut, err := s.station.OpenDoor()
	must(t, err)
	if _, err := os.Stat(key); err == nil {
		t.Error("an earlier program's key is still there")
	}
	_, port, _ := net.SplitHostPort(s.server.Listener.Addr().String())
	offer, err := Ask(s.options.Machine, port)
	must(t, err)
	folder := filepath.Dir(offer.Page)
	for file, want := range map[string]fs.FileMode{folder: 0o700, offer.Page: 0o600, s.station.door.socket: 0o600} {
		if info, err := os.Stat(file); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v, %v", file, info.Mode(), err)
		}
	}
	if text, err := os.ReadFile(offer.Page); err != nil || !strings.Contains(string(text), offer.Link) || offer.Book != s.options.Book {
		t.Errorf("%s, %v, %+v", text, err, offer)
	}
	if response := s.follow(offer.Link, nil); response.StatusCode != http.StatusOK {
		t.Errorf("%s", response.Status)
	}
	if _, err := os.Stat(offer.Page); err == nil {
		t.Error("the page is still there after the link was used")
	}
	unused := s.station.Offer()
	shut()
	if left, err := os.ReadDir(folder); err != nil || len(left) != 0 {
		t.Errorf("%v, %v are left, %s", left, err, unused.Page)
	}
	if _, err := Ask(s.options.Machine, port); err == nil {
		t.Error("a station that has ended answers")
	}
}

// TestNothingIsChangedByAsking gets every address, and none of them records anything.
func TestNothingIsChangedByAsking(t *testing.T) {
	s := newStand(t)
	before := s.events()
	for _, path := range []string{"/", "/line", "/part", "/tags", "/picture", "/slow", "/plot/17", "/plot/17?fresh=1", "/preview/1100000177", "/assets/station.js", "/assets/"} {
		request, err := http.NewRequest(http.MethodGet, s.server.URL+path, nil)
		must(t, err)
		request.AddCookie(s.cookie)
		response, err := s.server.Client().Do(request)
		must(t, err)
		response.Body.Close()
		if response.StatusCode >= 500 {
			t.Errorf("%s: %s", path, response.Status)
		}
	}
	if written := s.events() - before; written != 0 {
		t.Errorf("%d entries", written)
	}
}

func TestWhatIsNoLineIsRefused(t *testing.T) {
	s := newStand(t)
	for name, body := range map[string]string{"empty": "", "junk": "\x00\xff", "long": `{"line":"` + strings.Repeat("9", mostLine) + `"}`, "a list": "[]", "a wrong number": `{"talk":{"about":{"number":"1"}}}`} {
		request, err := http.NewRequest(http.MethodPost, s.server.URL+"/line", strings.NewReader(body))
		must(t, err)
		request.AddCookie(s.cookie)
		response, err := s.server.Client().Do(request)
		must(t, err)
		response.Body.Close()
		if response.StatusCode != http.StatusBadRequest {
			t.Errorf("%s: %s", name, response.Status)
		}
	}
}
