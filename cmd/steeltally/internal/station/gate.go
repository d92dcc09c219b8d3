package station

import (
	"crypto/subtle"
	"fmt"
	"net"
	"net/http"
	"slices"
)

// gate lets in the screen of this machine and nobody else: another site's page in the
// same browser, another program's port and another name for this machine stay outside.
type gate struct {
	hosts   []string // with the port; each with http:// before it is an own origin
	cookie  string
	token   string
	secret  string
	origins *http.CrossOriginProtection
}

func newGate(address net.Addr, o Options) gate {
	_, port, err := net.SplitHostPort(address.String())
	if err != nil {
		port = "0"
	}
	return gate{
		hosts: []string{"127.0.0.1:" + port, "localhost:" + port}, cookie: "steeltally-" + port,
		token: o.Token, secret: o.Secret, origins: http.NewCrossOriginProtection(),
	}
}

// policy is what a page of the station may load: its own files and nothing from elsewhere.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; " +
	"media-src 'self' blob:; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// guard checks each request before anything else sees it.
func (g gate) guard(inside http.Handler) http.Handler {
	inside = g.origins.Handler(inside)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		header := w.Header()
		header.Set("Content-Security-Policy", policy)
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("Referrer-Policy", "same-origin") // a form of the own page says its origin
		header.Set("Cross-Origin-Resource-Policy", "same-origin")
		header.Set("Cross-Origin-Opener-Policy", "same-origin")
		header.Set("Permissions-Policy", "camera=(self), microphone=(), geolocation=()")
		header.Set("Cache-Control", "no-store")
		switch {
		case !slices.Contains(g.hosts, r.Host):
			http.Error(w, "this is no address of the station", http.StatusForbidden)
		case g.foreign(r):
			http.Error(w, "another page may not ask the station", http.StatusForbidden)
		case g.launched(r):
			g.open(w, r)
		case !g.known(r):
			http.Error(w, "open the station with the link that steeltally station printed", http.StatusUnauthorized)
		default:
			inside.ServeHTTP(w, r)
		}
	})
}

// foreign tells whether a request comes from a page of another origin. A page on another
// port of this machine counts as foreign, too, though its requests carry the cookie.
func (g gate) foreign(r *http.Request) bool {
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "same-origin", "none":
	default:
		return true
	}
	origin := r.Header.Get("Origin")
	return origin != "" && origin != "http://"+r.Host
}

// launched tells whether a request is the link that opens the screen.
func (g gate) launched(r *http.Request) bool {
	return r.Method == http.MethodGet && r.URL.Path == "/" && same(r.URL.Query().Get("token"), g.token)
}

// open gives the screen its cookie and takes the token out of the address.
func (g gate) open(w http.ResponseWriter, r *http.Request) {
	http.SetCookie(w, &http.Cookie{Name: g.cookie, Value: g.secret, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

func (g gate) known(r *http.Request) bool {
	cookie, err := r.Cookie(g.cookie)
	return err == nil && same(cookie.Value, g.secret)
}

func same(given, wanted string) bool {
	return wanted != "" && subtle.ConstantTimeCompare([]byte(given), []byte(wanted)) == 1
}

// Link is what opens the screen.
func (s *Station) Link() string {
	return fmt.Sprintf("http://%s/?token=%s", s.gate.hosts[0], s.gate.token)
}
