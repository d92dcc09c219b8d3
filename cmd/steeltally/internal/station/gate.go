package station

import (
	"crypto/rand"
	"crypto/subtle"
	"io"
	"net/http"
	"slices"
	"time"
)

// gate lets in the screen of this machine and nobody else: another site's page in the
// same browser, another program's port and another name for this machine stay outside.
type gate struct {
	hosts   []string // with the port; each with http:// before it is an own origin
	cookie  string   // its name has the port in it: a browser keeps ports no further apart
	secret  string   // in the cookie, new at each start
	link    *link
	origins *http.CrossOriginProtection
}

func newGate(port string, now func() time.Time) gate {
	return gate{
		hosts: []string{"127.0.0.1:" + port, "localhost:" + port}, cookie: "steeltally-" + port,
		secret: rand.Text(), link: &link{now: now}, origins: http.NewCrossOriginProtection(),
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
		case isLink(r) && g.link.take(r.URL.Query().Get("token")):
			g.open(w)
		case isLink(r) && (g.foreign(r) || !g.known(r)):
			http.Error(w, "this link has opened a screen before, or is more than a minute old: "+anew, http.StatusUnauthorized)
		case g.foreign(r):
			http.Error(w, "another page may not ask the station", http.StatusForbidden)
		case !g.known(r):
			http.Error(w, "this page is not let in: "+anew, http.StatusUnauthorized)
		default:
			inside.ServeHTTP(w, r)
		}
	})
}

// anew is how one gets in.
const anew = "press Enter where steeltally station runs, or start steeltally station again"

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

// isLink tells whether somebody follows a link to the screen: from the page that hands it
// over, which is a page of nobody's, too. What a browser loads ahead uses no link up.
func isLink(r *http.Request) bool {
	header := r.Header
	whole := header.Get("Sec-Fetch-Dest") == "" || header.Get("Sec-Fetch-Dest") == "document"
	return r.Method == http.MethodGet && r.URL.Path == "/" && r.URL.Query().Has("token") &&
		whole && header.Get("Origin") == "" && header.Get("Sec-Purpose") == ""
}

// open gives the screen its cookie. The page then leads on by itself: to a browser that
// came from elsewhere the cookie belongs only from here on.
func (g gate) open(w http.ResponseWriter) {
	http.SetCookie(w, &http.Cookie{Name: g.cookie, Value: g.secret, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	io.WriteString(w, forward("/"))
}

// known tells whether a request has the cookie. Another program of this machine can have
// set one of the same name: any that is right lets in.
func (g gate) known(r *http.Request) bool {
	return slices.ContainsFunc(r.CookiesNamed(g.cookie), func(c *http.Cookie) bool { return same(c.Value, g.secret) })
}

func same(given, wanted string) bool {
	return wanted != "" && subtle.ConstantTimeCompare([]byte(given), []byte(wanted)) == 1
}
