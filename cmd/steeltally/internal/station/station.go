// Package station is the screen beside the jig: a local web page that one second is
// enough to read. Whatever it does goes through the desk.
package station

import (
	"html/template"
	"net"
	"net/http"

	"steeltally/cmd/steeltally/internal/desk"
)

// Options say which book a station works on.
type Options struct {
	Desk    desk.Options
	Printer string // where tags of changed steel go; empty: they wait to be asked for
}

// Station serves the screen.
type Station struct {
	options Options
	gate    gate
	door    door
	book    *shared
	bell    *bell
	sight   *foresight
	parts   *template.Template
}

// New makes a station that is reached at an address.
func New(o Options, address net.Addr) *Station {
	_, port, err := net.SplitHostPort(address.String())
	if err != nil {
		port = "0"
	}
	s := &Station{options: o, gate: newGate(port, o.Desk.Now), door: doorOf(o.Desk.Machine, port), bell: newBell(), parts: loadParts()}
	s.options.Desk.Known = new(desk.Known)
	s.sight = newForesight(s.options.Desk)
	s.book = newShared(s.options.Desk)
	s.sight.book = s.book
	return s
}

// Handler answers the screen's requests, behind the gate.
func (s *Station) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.page)
	mux.Handle("GET /assets/", assetServer())
	mux.HandleFunc("POST /line", s.line)
	mux.HandleFunc("POST /part", s.part)
	mux.HandleFunc("GET /events", s.events)
	mux.HandleFunc("GET /plot/{pair}", s.plot)
	mux.HandleFunc("POST /slow", s.slow)
	mux.HandleFunc("GET /preview/{number}", s.preview)
	mux.HandleFunc("POST /tags", s.tags)
	mux.HandleFunc("POST /picture", s.picture)
	return s.gate.guard(s.recovering(mux))
}
