package station

import (
	"bytes"
	"embed"
	"encoding/json"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

//go:embed parts assets
var files embed.FS

// loadParts reads the embedded pages; they are the program's own, so that one that can't
// be read is a fault of the build.
func loadParts() *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{
		"plural": desk.SayCount, "numbers": numbers, "newest": newest, "setOf": desk.SayDueSet, "next": func(i int) int { return i + 1 }, "onScreen": OnScreen, "hintOf": func(u inventory.Unworked) string { return OnScreen(desk.UnworkedHint(u)) },
	}).ParseFS(files, "parts/*.html"))
}

// numbers writes numbers for people, one behind the other.
func numbers(list []inventory.Number) string {
	words := make([]string, len(list))
	for i, n := range list {
		words[i] = n.Short()
	}
	return strings.Join(words, " ")
}

// shortOf is a scanned number for people, and else the start of what was scanned.
func shortOf(text string) string {
	if n, err := inventory.ScannedNumber(text); err == nil {
		return n.Short()
	}
	const most = 24
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}

// newest turns a history around: on a screen the latest is looked for.
func newest(lines []desk.HistoryLine) []desk.HistoryLine {
	lines = slices.Clone(lines)
	slices.Reverse(lines)
	return lines
}

// assetServer gives the page's own files.
func assetServer() http.Handler { return http.FileServerFS(files) }

// page is the frame of all screens; what is in them comes by line and part.
func (s *Station) page(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write([]byte(s.render("page", screens())))
}

// tab is the way to a screen, with the key that leads there.
type tab struct{ Screen, Key, Word string }

func screens() []tab {
	return []tab{
		{atJig, "F1", "Jig"}, {atDue, "F2", "Steel due"}, {atSpares, "F3", "Spare pairs"}, {atTrip, "F4", "Trip"}, {atBin, "F8", "Bin"}, {atTags, "F9", "Tags"},
	}
}

// render draws a part. A part that can't be drawn is a fault of the program, and is said.
// What steers a screen and can't be seen is shown: the parts themselves have none of it.
func (s *Station) render(name string, data any) string {
	var html bytes.Buffer
	if err := s.parts.ExecuteTemplate(&html, name+".html", data); err != nil {
		return "<p>this can't be shown: " + template.HTMLEscapeString(err.Error()) + "</p>"
	}
	return inventory.VisibleLines(html.String())
}

// readJSON reads what a window sent; what is no such thing is refused.
func readJSON(w http.ResponseWriter, r *http.Request, into any) bool {
	err := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostLine)).Decode(into)
	if err != nil {
		http.Error(w, "this is nothing that the station's page sends", http.StatusBadRequest)
	}
	return err == nil
}

func writeJSON(w http.ResponseWriter, out any) {
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(out)
}
