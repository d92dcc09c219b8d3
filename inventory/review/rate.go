package review

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
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

// Spread is how some values lie: half of them at or below the middle one.
type Spread struct {
	High   float64 `json:"highest"`
	Low    float64 `json:"lowest"`
	Middle float64 `json:"median"`
	N      int     `json:"n"`
}

func spreadOf(values []float64) Spread {
	if len(values) == 0 {
		return Spread{}
	}
	sorted := slices.Sorted(slices.Values(values))
	n := len(sorted)
	return Spread{N: n, Low: sorted[0], Middle: (sorted[(n-1)/2] + sorted[n/2]) / 2, High: sorted[n-1]}
}

// ofSets takes one value of each set: that of its side which has the larger one.
func ofSets(sets []*WornSet, value func(*Life) (float64, bool)) Spread {
	var values []float64
	for _, s := range sets {
		most, any := 0.0, false
		for _, life := range s.lives() {
			if v, ok := value(life); ok && (!any || v > most) {
				most, any = v, true
			}
		}
		if any {
			values = append(values, most)
		}
	}
	return spreadOf(values)
}

func whole(n *int) (float64, bool) {
	if n == nil {
		return 0, false
	}
	return float64(*n), true
}

// Sessions are the starts of the club's sessions, in order.
type Sessions []time.Time

// ReadSessions reads the sessions from an instant until another.
func ReadSessions(v inventory.View, from, until time.Time) Sessions {
	var starts Sessions
	for _, s := range inventory.Sessions(v, from, until) {
		starts = append(starts, s.When.Start)
	}
	return starts
}

// Any tells whether there is a schedule at all.
func (s Sessions) Any() bool { return len(s) > 0 }

// Between counts the sessions that started in [from, until).
func (s Sessions) Between(from, until time.Time) int {
	return max(0, s.before(until)-s.before(from))
}

func (s Sessions) before(t time.Time) int {
	at, _ := slices.BinarySearchFunc(s, t, time.Time.Compare)
	return at
}
