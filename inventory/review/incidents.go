package review

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
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
