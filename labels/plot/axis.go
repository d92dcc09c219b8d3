package plot

import (
	"fmt"
	"math"
	"time"
)

// Axis is one side of a chart.
type Axis struct {
	Title     string
	Low, High float64
	Ticks     []Tick
}

// Tick is a named place on an axis.
type Tick struct {
	At    float64
	Label string
}

// mostTicks is how many numbers an axis carries at most.
const mostTicks = 6

// Numbers is an axis over some values, with round numbers on it.
func Numbers(title string, values ...float64) Axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		low, high = 0, 1
	}
	if high-low < 1e-9 {
		low, high = low-0.5, high+0.5
	}
	step := roundStep((high - low) / (mostTicks - 1))
	a := Axis{Title: title, Low: step * math.Floor(low/step+1e-9), High: step * math.Ceil(high/step-1e-9)}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	for n := math.Round(a.Low / step); n*step <= a.High+step/2; n++ {
		a.Ticks = append(a.Ticks, Tick{n * step, fmt.Sprintf("%.*f", decimals, n*step)})
	}
	return a
}

// roundStep is the next larger 1, 2 or 5 times a power of ten.
func roundStep(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*power >= least*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// Dates is an axis over some days, with months or weeks on it.
func Dates(title string, from, until time.Time) Axis {
	if !until.After(from) {
		until = from.AddDate(0, 0, 1)
	}
	a := Axis{Title: title, Low: DayValue(from), High: DayValue(until)}
	months := max(1, int(math.Ceil((a.High-a.Low)/30.4/8)))
	if a.High-a.Low < 45 {
		for t := from; !t.After(until); t = t.AddDate(0, 0, 7) {
			a.Ticks = append(a.Ticks, Tick{DayValue(t), t.Format("2 Jan")})
		}
		return a
	}
	first := time.Date(from.Year(), from.Month(), 1, 0, 0, 0, 0, from.Location())
	for t := first; !t.After(until); t = t.AddDate(0, months, 0) {
		if v := DayValue(t); v >= a.Low {
			a.Ticks = append(a.Ticks, Tick{v, monthLabel(t)})
		}
	}
	return a
}

// monthLabel names a month; January has its year with it.
func monthLabel(t time.Time) string {
	if t.Month() == time.January {
		return t.Format("Jan 2006")
	}
	return t.Format("Jan")
}

// DayValue is a time on a date axis, in days.
func DayValue(t time.Time) float64 { return float64(t.Unix()) / (24 * 60 * 60) }
