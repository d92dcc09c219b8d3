package jig

import (
	"fmt"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// Heard is what a scanner that is tested typed for one code.
type Heard struct {
	Typed  string   `json:"typed"`
	Placed string   `json:"placed,omitempty"` // by the places of the keys, where they are known
	Ends   []string `json:"ends"`             // the keys behind it: Enter, Tab
	Lead   bool     `json:"lead,omitempty"`   // Enter came right before it
}

// ScannerReport says in words what a scanner does. A finding with a hint has to be set
// otherwise; the others are taken as they are.
type ScannerReport struct {
	Verdict  string // empty: nothing was scanned yet
	Findings []inventory.Notice
	Heard    []bool // which of the codes were scanned
}

// ReportScanner compares what a scanner typed with the codes that were scanned.
func ReportScanner(codes []desk.TestCode, heard []Heard) ScannerReport {
	r := ScannerReport{Heard: make([]bool, len(codes))}
	for _, h := range heard {
		i := r.codeOf(codes, h)
		r.Heard[i] = true
		r.typed(codes[i].Text, h)
		r.ends(h)
	}
	r.decide(codes, len(heard))
	return r
}

// codeOf finds which code was scanned: the one that came, else the next that is as long.
func (r *ScannerReport) codeOf(codes []desk.TestCode, h Heard) int {
	best := 0
	for i, code := range codes {
		if strings.Contains(strings.ToUpper(h.Typed), code.Text) || strings.Contains(strings.ToUpper(h.Placed), code.Text) {
			return i
		}
		distance, least := apart(code.Text, h.Typed), apart(codes[best].Text, h.Typed)
		if distance < least || distance == least && r.Heard[best] {
			best = i
		}
	}
	return best
}

// apart is by how many characters two texts differ in length.
func apart(a, b string) int {
	d := len([]rune(a)) - len([]rune(b))
	return max(d, -d)
}

// typed says how a code came.
func (r *ScannerReport) typed(text string, h Heard) {
	came := strings.TrimSpace(h.Typed)
	bare := inventory.AsScanned(came)
	if identifier, ok := strings.CutSuffix(came, bare); ok && identifier != "" {
		r.find(fmt.Sprintf("it sends a symbology identifier (%s) first: taken off", strings.TrimSpace(identifier)), "")
	}
	at := strings.Index(strings.ToUpper(bare), text)
	whole := at >= 0
	switch {
	case whole && len(bare) > len(text):
		r.find(fmt.Sprintf("it types %q before a code and %q behind it", inventory.Clip(bare[:at]), inventory.Clip(bare[at+len(text):])), "switch that off")
	case whole && bare != text:
		r.find("it types small letters, or Caps Lock is on: read all the same", "")
	case whole:
	case strings.Contains(strings.ToUpper(h.Placed), text):
		r.find("it types for another keyboard layout: on this screen its keys are read by their place", "for the terminal set its keyboard language to that of this machine")
	case len([]rune(bare)) < len(text):
		r.find(fmt.Sprintf("%d of %d characters came", len([]rune(bare)), len(text)), "set a longer time between its characters, and hold it still")
	default:
		r.find(fmt.Sprintf("it types for another keyboard layout: %s", differences(text, bare)), "set its keyboard language to that of this machine")
	}
}

// differences says which characters came otherwise, at most a few of them.
func differences(text, came string) string {
	const most = 5
	var words []string
	letters := []rune(came)
	for i, want := range text {
		if i < len(letters) && letters[i] != want && len(words) < most {
			words = append(words, fmt.Sprintf("%c as %s", want, inventory.Clip(string(letters[i]))))
		}
	}
	return strings.Join(words, ", ")
}

// ends says what the scanner sent behind a code, and before it.
func (r *ScannerReport) ends(h Heard) {
	switch {
	case len(h.Ends) > 1:
		r.find(fmt.Sprintf("it ends a code with %s: taken for one end", strings.Join(h.Ends, " and ")), "")
	case len(h.Ends) == 1:
		r.find(fmt.Sprintf("it ends a code with %s", h.Ends[0]), "")
	}
	if h.Lead {
		r.find("it sends Enter before a code", "switch that off: Enter alone is the usual grind")
	}
}

// find adds a finding, once.
func (r *ScannerReport) find(text, hint string) {
	finding := inventory.Notice{Text: text, Hint: hint}
	for _, has := range r.Findings {
		if has == finding {
			return
		}
	}
	r.Findings = append(r.Findings, finding)
}

// decide says whether the scanner can be used as it is.
func (r *ScannerReport) decide(codes []desk.TestCode, scans int) {
	if scans == 0 {
		return
	}
	r.Verdict = "this scanner can be used as it is"
	for i, code := range codes {
		if !r.Heard[i] {
			r.Verdict = "not all three were scanned yet"
			r.find(fmt.Sprintf("not scanned: %s; one that reads bars only reads no other code", code.Title), "")
		}
	}
	for _, finding := range r.Findings {
		if finding.Hint != "" {
			r.Verdict = "this scanner has to be set"
		}
	}
}
