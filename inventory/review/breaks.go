package review

import (
	"fmt"
	"math"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear/trend"
)

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
