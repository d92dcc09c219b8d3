package review

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// grouping says how pieces are grouped, and among which a group is compared.
type grouping struct {
	kind  string
	group func(*Life) (name, among string)
}

func groupings() []grouping {
	return []grouping{
		{"model", func(l *Life) (string, string) { return l.Model, "model" }},
		{"lot", func(l *Life) (string, string) {
			if l.Lot == "" {
				return "", ""
			}
			return "lot " + l.Lot + " of " + l.Model, l.Model
		}},
		{"side", func(l *Life) (string, string) { return string(l.Side), "side" }},
	}
}

// incidentFindings compares how often runners, and holders, cracked, broke or bent until
// a time.
func incidentFindings(lives []*Life, until time.Time) ([]Finding, error) {
	var found []Finding
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder} {
		of := slices.DeleteFunc(slices.Clone(lives), func(l *Life) bool { return l.Number.Kind() != kind || l.timesUntil(until) == 0 })
		for _, g := range groupings() {
			list, err := g.compare(of, kind.String(), until)
			if err != nil {
				return nil, err
			}
			found = append(found, list...)
		}
		zones, err := zoneFinding(of, kind.String(), until)
		if err != nil {
			return nil, err
		}
		found = append(found, zones...)
	}
	return found, nil
}

// compare compares each group with the others that it is among, all of one kind judged
// together.
func (g grouping) compare(lives []*Life, what string, until time.Time) ([]Finding, error) {
	rates, among, err := ratesOf(lives, g.group, until)
	if err != nil {
		return nil, err
	}
	plan := trend.UsualPlan()
	var found []Finding
	var ps []float64
	for _, r := range rates {
		rest := restOf(rates, among, r)
		if rest.Sessions == 0 || r.Incidents+rest.Incidents == 0 {
			continue
		}
		against, err := trend.CompareWithRest(trend.Group{Incidents: r.Incidents, Sessions: r.Sessions}, trend.Group{Incidents: rest.Incidents, Sessions: rest.Sessions}, level, plan.LevelAtLook())
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r.Name, err)
		}
		found = append(found, Finding{
			Kind: g.kind, About: what + "s, " + r.Name, N: r.Incidents, Verdict: CantSay, Unit: "per 1,000 sessions",
			Middle: r.PerThousand, Low: r.Low, High: r.High,
			Words: rateWords(what, r, rest),
		})
		ps = append(ps, against.P)
	}
	return found, judge(plan, ps, func(i int) { found[i].Verdict = Differs })
}

// rateWords is a group's rate beside the others'.
func rateWords(what string, r, rest Rate) string {
	return fmt.Sprintf("%ss, %s: %d of %d cracked, broke or bent, %.1f in 1,000 sessions (%.1f to %.1f); the others %d of %d, %.1f",
		what, r.Name, r.Incidents, r.Pieces, r.PerThousand, r.Low, r.High, rest.Incidents, rest.Pieces, rest.PerThousand)
}

// Incidence is which share of runners had left use after so many sessions (or days,
// where there is no schedule), by reason.
type Incidence struct {
	Unit    string // sessions or days
	Runners int
	Steps   []stats.IncidenceStep // low steel, breakage, other
}

// incidenceOf is when skaters' runners left use, and why.
func incidenceOf(lives []*Life, players []*Player) (Incidence, error) {
	keepers := map[inventory.Number]bool{}
	for _, p := range players {
		keepers[p.Number] = p.Goalkeeper
	}
	length := func(l *Life) *int { return l.Times }
	in := Incidence{Unit: "sessions"}
	if !slices.ContainsFunc(lives, func(l *Life) bool { return l.Times != nil }) {
		in.Unit, length = "days", func(l *Life) *int { return l.Days }
	}
	var spans []trend.LifeSpan
	for _, l := range lives {
		if n := length(l); l.Steel() && !keepers[l.Player] && n != nil && *n > 0 {
			spans = append(spans, trend.LifeSpan{Length: float64(*n), Reason: l.reason()})
		}
	}
	if in.Runners = len(spans); in.Runners == 0 {
		return in, nil
	}
	var err error
	in.Steps, err = trend.ByReason(spans)
	return in, err
}

// reason is why a runner left use.
func (l *Life) reason() trend.Reason {
	switch {
	case l.InUse:
		return trend.StillInUse
	case l.Reason.Reason() == inventory.ReasonLow:
		return trend.LowSteel
	case l.BrokenOff():
		return trend.Breakage
	}
	return trend.OtherReason
}
