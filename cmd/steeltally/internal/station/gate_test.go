package station

import (
	"bytes"
	"net/http"
	"strings"
	"testing"
)

// caller is somebody who asks the station something.
type caller struct{ host, origin, site, method, path, entry string }

// mine tells whether the station's own page could have sent it.
func (c caller) mine(port string) bool {
	ownHost := c.host == "127.0.0.1:"+port || c.host == "localhost:"+port
	ownOrigin := c.origin == "" || c.origin == "http://"+c.host
	ownSite := c.site == "" || c.site == "same-origin" || c.site == "none"
	return ownHost && ownOrigin && ownSite && c.entry == "cookie"
}

// TestNobodyElseIsLetIn tries every mixture of host, origin, site, method and key: none
// but the station's own page gets any data or writes anything.
func TestNobodyElseIsLetIn(t *testing.T) {
	s := newStand(t)
	port := strings.Split(s.server.Listener.Addr().String(), ":")[1]
	before, rows, open := s.events(), 0, 0
	for _, host := range []string{"127.0.0.1:" + port, "localhost:" + port, "127.0.0.1", "evil.example:" + port, "127.0.0.1.nip.example:" + port, "[::1]:" + port, ""} {
		for _, origin := range []string{"", "http://127.0.0.1:" + port, "http://evil.example", "null", "http://127.0.0.1:1"} {
			for _, site := range []string{"", "none", "same-origin", "same-site", "cross-site"} {
				for _, entry := range []string{"cookie", "wrong cookie", "nothing", "wrong token"} {
					for path, method := range map[string]string{"/line": http.MethodPost, "/part": http.MethodPost, "/": http.MethodGet} {
						c := caller{host, origin, site, method, path, entry}
						rows++
						if c.try(t, s, port) {
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
	if written := s.events() - before; written != open/3 {
		t.Errorf("%d entries were written, %d lines of the own page", written, open/3)
	}
}

// try sends one request and tells whether it was let in.
func (c caller) try(t *testing.T, s *stand, port string) bool {
	t.Helper()
	path := c.path
	if c.entry == "wrong token" {
		path += "?token=tokem"
	}
	body := `{"key":"` + strings.Join([]string{c.host, c.origin, c.site}, " ") + `","line":"x","talk":{"screen":"jig","about":{"number":"` +
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
	case "wrong cookie":
		request.AddCookie(&http.Cookie{Name: s.cookie.Name, Value: "secreT"})
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

func TestTheLinkOpensTheScreen(t *testing.T) {
	s := newStand(t)
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	response, err := client.Get(s.station.Link())
	must(t, err)
	response.Body.Close()
	cookies := response.Cookies()
	if response.StatusCode != http.StatusSeeOther || len(cookies) != 1 || !cookies[0].HttpOnly || cookies[0].SameSite != http.SameSiteStrictMode {
		t.Errorf("%s, %+v", response.Status, cookies)
	}
	if response.Header.Get("Location") != "/" {
		t.Errorf("the token stays in the address: %s", response.Header.Get("Location"))
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
