package cli

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// sayReview tells what stands out first, then the players, then what is apart.
func (a *app) sayReview(r desk.Review, all bool) {
	a.voice.say("%s: %s done with", r.Scope, desk.SayCount(r.Pieces, "piece"))
	a.voice.say("")
	a.sayFindings(r, all)
	a.sayPlayers(r)
	a.sayUnworked(r.Unworked)
	a.sayHands(r)
	if r.Bin != nil {
		a.sayApart("scanned more than once", r.Bin.Duplicates)
		a.sayApart("foreign, or not whole", r.Bin.Foreign)
		a.sayApart("not known", r.Bin.Unknown)
		a.sayApart("old tags", r.Bin.Stale)
		a.sayApart("misplaced", r.Bin.Misplaced)
	}
}

func (a *app) sayFindings(r desk.Review, all bool) {
	differ, not := 0, 0
	for _, f := range r.Findings {
		if f.Verdict != desk.Differs {
			not++
			continue
		}
		if differ++; differ == 1 {
			a.voice.say("WHAT STANDS OUT")
		}
		a.voice.say("- %s", f.Words)
	}
	if differ == 0 {
		a.voice.say("Nothing stands out that chance alone could not bring about.")
	}
	if !all {
		a.sayLooked(r)
		return
	}
	if not > 0 {
		a.voice.say("")
		a.voice.say("CAN'T SAY")
	}
	for _, f := range r.Findings {
		if f.Verdict != desk.Differs {
			a.voice.say("- %s", f.Words)
		}
	}
	a.voice.say("")
}

// lookedAt names what was compared, by the kind of finding.
var lookedAt = map[string]string{
	"sides": "left against right of %s", "removal-height": "heights at removal through the season", "model": "%s",
	"lot": "%s", "zone": "places at which it breaks", "side": "left against right in breaks", "break-height": "whether low steel breaks more",
	"operator": "%s at the wheel", "machine": "%s",
}

// sayLooked sums up where nothing can be said.
func (a *app) sayLooked(r desk.Review) {
	counts := map[string]int{}
	var kinds []string
	for _, f := range r.Findings {
		if f.Verdict == desk.Differs {
			continue
		}
		if counts[f.Kind]++; counts[f.Kind] == 1 {
			kinds = append(kinds, f.Kind)
		}
	}
	var words []string
	things := map[string]string{"sides": "player", "model": "model", "lot": "lot", "operator": "person", "machine": "machine"}
	for _, kind := range kinds {
		word := lookedAt[kind]
		if strings.Contains(word, "%s") {
			word = fmt.Sprintf(word, desk.SayCount(counts[kind], things[kind]))
		}
		words = append(words, word)
	}
	if len(words) > 0 {
		a.voice.say("Can't say: %s. --all tells each with its figures.", list(words))
	}
	a.voice.say("")
}

func (a *app) sayPlayers(r desk.Review) {
	var rows [][]string
	for _, p := range r.Players {
		if p.Pieces == 0 {
			continue
		}
		rows = append(rows, []string{
			sayCount(p.Sweater), shorten(p.Name), fmt.Sprint(p.Pieces), fmt.Sprint(len(p.Sets)), saySpread(p.Days, 0),
			saySpread(p.Times, 0), saySpread(p.Grinds, 0), sayLoss(p.Loss), sayHeightsOff(p), sayReasons(p.Reasons), fmt.Sprint(p.Incidents),
		})
	}
	if len(rows) == 0 {
		return
	}
	a.voice.table([]string{"no", "name", "pieces", "sets", "days", "sessions", "grinds", "loss a pass", "height off", "reasons", "damages"}, rows)
	a.voice.say("")
	a.voice.say("Days, sessions and grinds a set lasted, and heights: the middle one, from the lowest to the highest.")
	a.voice.say("Loss a pass in mm: the middle guess, and what holds for 8 of 10 new runners.")
}

// saySpread is the middle one, from the lowest to the highest: "14 (9–21)".
func saySpread(s desk.Spread, decimals int) string {
	if s.N == 0 {
		return "–"
	}
	if s.N == 1 || s.Low == s.High {
		return fmt.Sprintf("%.*f", decimals, s.Middle)
	}
	return fmt.Sprintf("%.*f (%.*f–%.*f)", decimals, s.Middle, decimals, s.Low, decimals, s.High)
}

func sayLoss(l desk.Loss) string {
	if l.Sets == 0 {
		return "can't say"
	}
	return fmt.Sprintf("%.4f (%.4f–%.4f), %s", l.Middle, l.Low, l.High, desk.SayCount(l.Sets, "set"))
}

// sayHeightsOff is the height at removal and how many were below the change height.
func sayHeightsOff(p *desk.PlayerReview) string {
	line := saySpread(p.Heights, 1)
	if p.Below > 0 {
		line += fmt.Sprintf(", %d below", p.Below)
	}
	if p.Refused > 0 {
		line += fmt.Sprintf(" (%d after a no)", p.Refused)
	}
	return line
}

func sayReasons(reasons map[inventory.Why]int) string {
	var words []string
	for _, reason := range slices.Sorted(maps.Keys(reasons)) {
		name := string(reason)
		if name == "" {
			name = "not said"
		}
		words = append(words, fmt.Sprintf("%s %d", name, reasons[reason]))
	}
	return strings.Join(words, ", ")
}

func (a *app) sayHands(r desk.Review) {
	var rows [][]string
	for _, h := range append(slices.Clone(r.Operators), r.Machines...) {
		share := "can't say"
		if h.Stretches > 1 {
			share = fmt.Sprintf("%.0f %% (%.0f–%.0f %%) of the usual", 100*h.Ratio, 100*h.Low, 100*h.High)
		}
		rows = append(rows, []string{h.Kind, h.Name, fmt.Sprint(h.Passes), share})
	}
	if len(rows) == 0 {
		return
	}
	a.voice.say("")
	a.voice.table([]string{"at the wheel", "", "passes", "loss a pass"}, rows)
}

func (a *app) sayApart(heading string, list []desk.Apart) {
	if len(list) == 0 {
		return
	}
	a.voice.say("")
	a.voice.say("%s: %d", heading, len(list))
	for _, apart := range list {
		name := apart.Number.Short()
		if name == "" {
			name = apart.Scan
		}
		a.voice.say("  %s  %s", name, apart.What)
	}
}
