package outlook

import (
	"math"
	"math/rand/v2"
	"slices"
)

// tally gathers a figure of every day, over all futures.
type tally struct{ sums [][]float64 } // by run and day

func newTally(days int) *tally {
	t := &tally{make([][]float64, runs)}
	for i := range t.sums {
		t.sums[i] = make([]float64, days)
	}
	return t
}

// ranges are the middle and the span of each day.
func (t *tally) ranges() []Range[float64] {
	list := make([]Range[float64], len(t.sums[0]))
	for day := range list {
		list[day] = rangeOf(func(run int) float64 { return t.sums[run][day] })
	}
	return list
}

// rangeOf is the middle and the span of a figure over all futures.
func rangeOf(figure func(run int) float64) Range[float64] {
	values := make([]float64, runs)
	for run := range values {
		values[run] = figure(run)
	}
	slices.Sort(values)
	at := func(share float64) float64 { return values[int(share*float64(runs-1)+0.5)] }
	return Range[float64]{at(lowChance), at(middleChance), at(highChance)}
}

// need plays the futures of the players of one fit and adds what is left to a tally.
func (o *Outlook) need(fit Fit, players []*consumer, shelf int, left *tally, source *rand.Rand) Need {
	n := Need{Fit: fit, Players: len(players), Shelf: shelf}
	days := len(left.sums[0])
	changes, missing := make([]float64, runs), newTally(days)
	for _, c := range players {
		n.Ready += c.ready
		for run := range runs {
			count := make([]int, days)
			for _, day := range c.play(days, source) {
				count[day]++
			}
			used := 0
			for day := range days {
				used += count[day]
				missing.sums[run][day] += math.Max(0, float64(used-c.ready))
				left.sums[run][day] += float64(c.ready - used)
			}
			changes[run] += float64(used)
		}
	}
	n.Changes = rangeOf(func(run int) float64 { return changes[run] })
	for run := range runs {
		for day := range days {
			left.sums[run][day] += float64(shelf)
			missing.sums[run][day] = math.Max(0, missing.sums[run][day]-float64(shelf))
		}
	}
	n.Buy = rangeOf(func(run int) float64 { return missing.sums[run][days-1] })
	for day, r := range missing.ranges() {
		if r.High >= 1 {
			n.Short = o.calendar.date(day)
			break
		}
	}
	return n
}

// play gives the days on which sets come off in one future.
func (c *consumer) play(days int, source *rand.Rand) []int {
	pace := math.Max(0.2, 1+c.spread*source.NormFloat64())
	var off []int
	day := c.first(days, pace, source)
	for day < days {
		off = append(off, day)
		day = c.by(c.passes[day]*pace+c.life(source), pace, days)
	}
	return off
}

// first is the day on which the set that is on comes off.
func (c *consumer) first(days int, pace float64, source *rand.Rand) int {
	u := source.Float64()
	if c.due == nil {
		return c.by(u*c.life(source), pace, days)
	}
	for day, chance := range c.due {
		if chance >= u {
			return day
		}
	}
	return days
}

// life is how many passes a new set lasts in one future.
func (c *consumer) life(source *rand.Rand) float64 {
	chi := 0.0 // a chi-square, for Student's t: half its freedom, doubled
	for range max(1, int(c.loss.Freedom+0.5)) {
		g := source.NormFloat64()
		chi += g * g
	}
	t := source.NormFloat64() / math.Sqrt(chi/math.Max(1, math.Round(c.loss.Freedom)))
	passes := float64(c.height) / math.Exp(c.loss.Mean+c.loss.Scale*t)
	if source.Float64() < c.breaks {
		passes *= source.Float64()
	}
	return math.Max(1, passes)
}

// by is the first day by which so many passes were ground.
func (c *consumer) by(passes, pace float64, days int) int {
	for day := range days {
		if c.passes[day]*pace >= passes {
			return day
		}
	}
	return days
}
