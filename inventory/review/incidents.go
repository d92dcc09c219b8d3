package review

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// Rate is a group's incidents with the sessions that all its pieces were in use, broken
// or not.
type Rate struct {
	Name      string
	Pieces    int
	Incidents int
	Sessions  float64
	PerThousand,
	Low, High float64
}

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

// ratesOf adds up the groups, in order of name; among says for each what it is compared
// with.
func ratesOf(lives []*Life, group func(*Life) (string, string), until time.Time) ([]Rate, map[string]string, error) {
	byName, among := map[string]*Rate{}, map[string]string{}
	for _, l := range lives {
		name, with := group(l)
		if name == "" {
			continue
		}
		r := byName[name]
		if r == nil {
			r = &Rate{Name: name}
			byName[name], among[name] = r, with
		}
		r.add(l, until)
	}
	var rates []Rate
	for _, r := range byName {
		if err := r.settle(); err != nil {
			return nil, nil, err
		}
		rates = append(rates, *r)
	}
	slices.SortFunc(rates, func(a, b Rate) int { return cmp.Compare(a.Name, b.Name) })
	return rates, among, nil
}

func (r *Rate) add(l *Life, until time.Time) {
	r.Pieces++
	r.Incidents += l.incidents(until)
	r.Sessions += float64(l.timesUntil(until))
}

// settle computes the rate with its exact interval.
func (r *Rate) settle() error {
	rate, err := trend.RateOf(trend.Group{Incidents: r.Incidents, Sessions: r.Sessions}, level)
	r.PerThousand, r.Low, r.High = rate.PerThousand, rate.Interval.Low, rate.Interval.High
	return err
}

// restOf adds up the other groups that a group is compared with.
func restOf(rates []Rate, among map[string]string, one Rate) Rate {
	rest := Rate{Name: "the others"}
	for _, r := range rates {
		if r.Name != one.Name && among[r.Name] == among[one.Name] {
			rest.Pieces += r.Pieces
			rest.Incidents += r.Incidents
			rest.Sessions += r.Sessions
		}
	}
	if rest.Sessions > 0 {
		rest.PerThousand = 1000 * float64(rest.Incidents) / rest.Sessions
	}
	return rest
}

// zoneFinding tells where along the skate it breaks. Zones share the sessions, so they
// are compared by their counts alone.
func zoneFinding(lives []*Life, what string, until time.Time) ([]Finding, error) {
	counts := map[string]int{}
	sessions := 0.0
	for _, l := range lives {
		sessions += float64(l.timesUntil(until))
		for _, damage := range l.Damages {
			zone := damage.Value.Zone
			if damage.Value.Unsafe && zone != "" && zone != "unknown" && !damage.When.After(until) {
				counts[zone]++
			}
		}
	}
	var zones []string
	for _, zone := range inventory.Zones() {
		if counts[zone] > 0 {
			zones = append(zones, zone)
		}
	}
	if len(zones) < 2 {
		return nil, nil
	}
	f := Finding{Kind: "zone", About: what + "s", Verdict: CantSay, Unit: "incidents"}
	var groups []trend.Group
	words := ""
	for _, zone := range zones {
		groups = append(groups, trend.Group{Incidents: counts[zone], Sessions: sessions})
		words += fmt.Sprintf(", %s %d", zone, counts[zone])
		f.N += counts[zone]
		f.Middle = max(f.Middle, float64(counts[zone]))
	}
	compared, err := trend.CompareIncidents(groups, level)
	if err != nil && !errors.Is(err, stats.ErrTooLarge) {
		return nil, err
	}
	if err == nil && compared.P <= trend.UsualPlan().LevelAtLook() {
		f.Verdict = Differs
	}
	f.Words = fmt.Sprintf("%ss crack, break or bend at: %s", what, words[2:])
	f.differs = "some places take more than others"
	return []Finding{f}, nil
}
