package cli

import (
	"regexp"
	"strings"
	"testing"

	"steeltally/cmd/steeltally/internal/station"
)

// commandLine is a command line, or a flag of one; dangling is the start of one that went.
var (
	commandLine = regexp.MustCompile(`\bsteeltally [a-z]|(?:^|\s)--[a-z]`)
	dangling    = regexp.MustCompile(`(?:[:;,]|\b(?:with|or|and|then|add))$|: *;|^;`)
)

// Every hint of a room that the screen stands on is said there without a command line: with
// the jig's key that does the same, or without how it is done.
func TestHintsOnTheScreenSpellNoCommandLine(t *testing.T) {
	rooms := regexp.MustCompile(`^inventory/[^:]*\.go:|internal/(?:desk|jig)/|^labels/`)
	seen, translated := 0, 0
	for _, s := range spelledTexts(t) {
		if !rooms.MatchString(s.where) || !commandLine.MatchString(s.line) {
			continue
		}
		seen++
		said := station.OnScreen(sampled(strings.TrimSpace(s.line), "R1-1-77"))
		if commandLine.MatchString(said) || dangling.MatchString(said) {
			t.Errorf("%s: %s is said on the screen as %q", s.where, strings.TrimSpace(s.line), said)
		}
		if said != "" {
			translated++
		}
	}
	t.Logf("%d hints, of which %d are said on the screen", seen, translated)
	if seen < 180 || translated < 90 {
		t.Errorf("only %d hints were found, %d of them said", seen, translated)
	}
}

// What is said is what the jig does, and nothing else that was told is lost.
func TestHintsOnTheScreen(t *testing.T) {
	for hint, want := range map[string]string{
		"if it was one grind: steeltally undo 17":                                           "if it was one grind: u",
		"take it out first: steeltally out R1-1-77":                                         "take it out first",
		"put a set on first: steeltally in 17 A; or give the time with --at":                "put a set on first: scan 17, then c A",
		"steeltally in puts a set on":                                                       "c puts a set on",
		"steeltally history R1-1-77 shows where it was":                                     "scan R1-1-77, then h shows where it was",
		"say them right: steeltally undo 17 --last 2 --was-set B":                           "say them right",
		"steeltally undo 812@c3a9 or 813@c3a9":                                              "",
		"steeltally inspect R1-1-77 if it is sound, steeltally damage R1-1-77 --mode crack": "",
		"enter it with steeltally stockin holder and steeltally rivet on":                   "",
		"was it right: steeltally clock right; it is open work":                             "it is open work",
		"steeltally work lists it; steeltally emergency close 17 ends it":                   "scan 17, then ef ends it",
		"ed when he is back; afterwards: steeltally emergency done 17":                      "ed when he is back",
		"add --side left or --side right":                                                   "",
		"scan it again and measure anew; u drops the last one":                              "scan it again and measure anew; u drops the last one",
	} {
		if got := station.OnScreen(hint); got != want {
			t.Errorf("%q is said as %q, want %q", hint, got, want)
		}
	}
}
