package trend

import (
	"fmt"
	"sort"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

// Band is a span of heights: the grinds that steel of that height had, and the
// breaks that happened to it.
type Band struct {
	From, To geometry.Millimetre // From is in the band, To is not
	Grinds   int
	Breaks   int
	Rate     Rate // breaks per 1,000 grinds
}

// Breaks is whether lower steel breaks more.
type Breaks struct {
	Bands   []Band
	Outside int // grinds and breaks at heights in no band
	Trend   stats.TrendResult
	Tested  bool // false without a break, or with breaks and grinds in one band only
}

// BreaksByHeight counts grinds, and breaks, by the height of the steel at each
// in bands between rising edges, fixed before looking. The trend test is exact
// and scores a band by its number: Rising means more breaks on higher steel,
// Falling more on lower.
func BreaksByHeight(grinds, breaks, edges []geometry.Millimetre, level float64) (Breaks, error) {
	if len(edges) < 2 || !sort.SliceIsSorted(edges, func(i, j int) bool { return edges[i] < edges[j] }) {
		return Breaks{}, fmt.Errorf("%d edges: two or more in rising order are needed", len(edges))
	}
	var b Breaks
	for i := range edges[1:] {
		b.Bands = append(b.Bands, Band{From: edges[i], To: edges[i+1]})
	}
	for _, h := range grinds {
		b.count(h, func(band *Band) { band.Grinds++ })
	}
	for _, h := range breaks {
		b.count(h, func(band *Band) { band.Breaks++ })
	}
	return b, b.compare(level)
}

func (b *Breaks) count(h geometry.Millimetre, add func(*Band)) {
	for i := range b.Bands {
		if h >= b.Bands[i].From && h < b.Bands[i].To {
			add(&b.Bands[i])
			return
		}
	}
	b.Outside++
}

// compare fills in rates and the trend over the bands that were ground in.
func (b *Breaks) compare(level float64) error {
	var counts []int
	var exposures, scores []float64
	total := 0
	for i := range b.Bands {
		band := &b.Bands[i]
		if band.Grinds == 0 {
			if band.Breaks > 0 {
				return fmt.Errorf("%d breaks between %v and %v without a grind there: widen the bands", band.Breaks, band.From, band.To)
			}
			continue
		}
		var err error
		if band.Rate, err = RateOf(Group{band.Breaks, float64(band.Grinds)}, level); err != nil {
			return err
		}
		counts, total = append(counts, band.Breaks), total+band.Breaks
		exposures, scores = append(exposures, float64(band.Grinds)), append(scores, float64(i))
	}
	if total == 0 || len(counts) < 2 {
		return nil
	}
	var err error
	b.Trend, err = stats.TrendTest(counts, exposures, scores)
	b.Tested = err == nil
	return err
}
