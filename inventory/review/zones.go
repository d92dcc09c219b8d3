package review

import (
	"errors"
	"fmt"
	"math"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// zoneFinding tells where along the skate it breaks. Zones share the sessions, so they
// are compared by their counts alone.
func zoneFinding(lives []*Life, what string, until time.Time) ([]Finding, error) {
	counts := map[inventory.Zone]int{}
	sessions := 0.0
	for _, l := range lives {
		sessions += float64(l.timesUntil(until))
		for _, damage := range l.Damages {
			zone := damage.Value.Zone
			if damage.Value.Unsafe && zone != "" && zone != inventory.ZoneUnknown && !damage.When.After(until) {
				counts[zone]++
			}
		}
	}
	var zones []inventory.Zone
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

// breakFinding tells whether lower steel breaks more, with each grind as one exposure.
func breakFinding(lives []*Life, at time.Time) (Finding, bool, error) {
	var grinds, breaks []geometry.Millimetre
	for _, l := range lives {
		if !l.Steel() || l.runner == nil || l.FromTag {
			continue
		}
		heights, last, ok := heightsAtGrinds(l.runner, at)
		if !ok {
			continue
		}
		grinds = append(grinds, heights...)
		if l.incidents(at) > 0 || l.BrokenOff() && !l.InUse && !l.Out.After(at) {
			breaks = append(breaks, last)
		}
	}
	if len(breaks) == 0 || len(grinds) == 0 {
		return Finding{}, false, nil
	}
	result, err := trend.BreaksByHeight(grinds, breaks, bandEdges(grinds), level)
	if err != nil || !result.Tested {
		return Finding{}, false, nil // breaks at heights at which nothing else was ground: no comparison
	}
	f := Finding{Kind: "break-height", About: "runners", N: len(breaks), Verdict: CantSay, Unit: "per 1,000 grinds"}
	if result.Trend.TwoSided <= trend.UsualPlan().LevelAtLook() {
		f.Verdict = Differs
	}
	f.Words = breakWords(result, f)
	f.cantSay, f.differs = "whether low steel breaks more, can't say", "high steel breaks more"
	if result.Trend.Falling < result.Trend.Rising {
		f.differs = "low steel breaks more"
	}
	return f, true, nil
}

func breakWords(b trend.Breaks, f Finding) string {
	words := fmt.Sprintf("Breaks in 1,000 grinds by height, over %d breaks", f.N)
	for _, band := range b.Bands {
		if band.Grinds > 0 {
			words += fmt.Sprintf("; %.0f to %.0f mm %.1f (%.1f to %.1f)", float64(band.From), float64(band.To),
				band.Rate.PerThousand, band.Rate.Interval.Low, band.Rate.Interval.High)
		}
	}
	return words
}

// bandWidth is the width of the height bands, fixed before looking.
const bandWidth geometry.Millimetre = 2

// bandEdges are whole millimetres about all heights.
func bandEdges(heights []geometry.Millimetre) []geometry.Millimetre {
	low, high := heights[0], heights[0]
	for _, h := range heights {
		low, high = min(low, h), max(high, h)
	}
	from := bandWidth * geometry.Millimetre(math.Floor(float64(low/bandWidth)))
	var edges []geometry.Millimetre
	for edge := from; edge <= high+bandWidth; edge += bandWidth {
		edges = append(edges, edge)
	}
	return edges
}

// heightsAtGrinds reads a runner's height at each of its grinds off the line between
// its height when new and its last one; false where these are not known.
func heightsAtGrinds(r *inventory.Runner, at time.Time) (heights []geometry.Millimetre, last geometry.Millimetre, ok bool) {
	wear := r.WearAt(at)
	if wear.HeightNew == nil || wear.HeightLast == nil || wear.UnknownWorks > 0 || wear.Passes == 0 {
		return nil, 0, false
	}
	reading := r.Readings.Until(at)
	measured := reading[len(reading)-1].When.Start
	until := 0
	for _, work := range r.Works.Until(at) {
		if work.Value.Passes != nil && !work.When.Start.After(measured) {
			until += *work.Value.Passes
		}
	}
	if until == 0 {
		return nil, 0, false
	}
	loss := (*wear.HeightNew - *wear.HeightLast) / geometry.Millimetre(until)
	passes := 0
	for _, work := range r.Works.Until(at) {
		if work.Value.Passes == nil {
			continue
		}
		passes += *work.Value.Passes
		last = *wear.HeightNew - loss*geometry.Millimetre(passes)
		heights = append(heights, last)
	}
	return heights, last, loss > 0
}
