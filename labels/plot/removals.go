package plot

import (
	"maps"
	"slices"
	"time"

	"steeltally/labels/drawing"
)

// Removed is one runner taken off: when, at which height, and where its player changes.
type Removed struct {
	On     time.Time
	Height float64
	Change float64 // 0: not known
	Broken bool
}

// changeRoom is the room that the name of the change height takes at the right.
const changeRoom millimetre = 10

// manyDots is from how many dots on a chart draws a line through the months' middles.
const manyDots = 100

// monthly is the middle height of each 30 days.
func monthly(dots Dots) Curve {
	byMonth := map[int][]float64{}
	for i, x := range dots.X {
		month := int(x / 30)
		byMonth[month] = append(byMonth[month], dots.Y[i])
	}
	c := Curve{Bold: true}
	for _, month := range slices.Sorted(maps.Keys(byMonth)) {
		heights := slices.Sorted(slices.Values(byMonth[month]))
		c.X, c.Y = append(c.X, 30*(float64(month)+0.5)), append(c.Y, heights[len(heights)/2])
	}
	return c
}

// Removals draws heights at removal over time, against the change height; what broke
// is hollow.
func Removals(title string, removed []Removed, relative bool) Chart {
	c := Chart{Title: title, Right: changeRoom, Empty: "nothing was taken off with a height"}
	var low, broken Dots
	low.Grey, broken.Grey, broken.Hollow = drawing.Black, drawing.Black, true
	var heights []float64
	var days []time.Time
	for _, r := range removed {
		height := r.Height
		if relative {
			if r.Change == 0 {
				continue
			}
			height -= r.Change
		}
		heights, days = append(heights, height), append(days, r.On)
		if r.Broken {
			broken.X, broken.Y = append(broken.X, DayValue(r.On)), append(broken.Y, height)
		} else {
			low.X, low.Y = append(low.X, DayValue(r.On)), append(low.Y, height)
		}
	}
	if len(heights) == 0 {
		return c
	}
	first, last := slices.MinFunc(days, time.Time.Compare), slices.MaxFunc(days, time.Time.Compare)
	c.X = Dates("", first.AddDate(0, 0, -7), last.AddDate(0, 0, 7))
	rule := Rule{At: 0, Name: "change"}
	c.Y = Numbers("mm above change height", append(heights, 0)...)
	if !relative {
		rule.At = removed[len(removed)-1].Change
		c.Y = Numbers("height, mm", heights...)
		if rule.At > 0 {
			c.Y = Numbers("height, mm", append(heights, rule.At)...)
		}
	}
	c.Layer = []Layer{broken, low}
	if len(heights) > manyDots {
		low.Grey, low.Small = drawing.Light, true
		broken.Grey, broken.Small = drawing.Dark, true
		c.Layer = []Layer{low, broken, monthly(low)}
	}
	if relative || rule.At > 0 {
		c.Layer = append(c.Layer, rule)
	}
	return c
}
