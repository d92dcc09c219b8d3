package standing

import (
	"errors"
	"slices"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// Height is what is known of how high a runner is now, at its middle.
type Height struct {
	Now       *geometry.Millimetre // expected, after the passes since it was measured; nil: can't say
	Low, High *geometry.Millimetre // eight cases of ten lie between; nil as well where it was just read
	Last      *inventory.Worn      // the last reading; nil: never measured
	Reference inventory.Reference
	Since     int // known passes since the last reading
	Doubts    []Doubt
	CannotSay string // why it can't be foretold before it is measured
}

// AtEnd tells whether a runner has come down to a height: it is expected there, or was
// measured there and nobody doubts it.
func (h Height) AtEnd(change geometry.Millimetre) bool {
	if h.Now != nil && *h.Now <= change {
		return true
	}
	doubted := slices.ContainsFunc(h.Doubts, func(d Doubt) bool { return d.Again })
	return h.Last != nil && h.Last.Height <= change && !doubted
}

// Doubt is a reading that does not fit the others.
type Doubt struct {
	inventory.Worn
	Again bool // the last one: measure again; else it is not used
}

// Expected is what is foretold of a set.
type Expected struct {
	Heights  inventory.Both[Height]
	Forecast wear.PairForecast // where there is no error
	Err      error             // of *wear.PairError where it is for want of heights
	Measured int               // heights after passes, of the side that has more of them
}

// Expect foretells both runners of a player's set, down to a change height, mm; 0 where
// none is known.
func (l *Learnt) Expect(player *inventory.Player, s *Steel, change geometry.Millimetre, at time.Time) Expected {
	role := l.RoleOf(player)
	var both [2]use
	for i, side := range inventory.Sides() {
		both[i] = role.useOf(s.Runner(side), at)
	}
	var e Expected
	var failed [2]error
	together := s.together(at)
	for i, side := range inventory.Sides() {
		partner := both[1-i].Runner
		if !together {
			partner = wear.Runner{}
		}
		if s.Runner(side) == nil {
			failed[i] = errNotHere
			continue
		}
		forecast, err := role.ForecastRunner(role.player(player.Number), both[i].InUse, partner, change)
		height := heightFrom(s.Runner(side), both[i].series, forecast, err, at)
		e.Heights.Put(side, &height)
		e.Measured = max(e.Measured, measured(both[i].series))
		if failed[i] = err; side == inventory.Left {
			e.Forecast.Left = forecast
		} else {
			e.Forecast.Right = forecast
		}
	}
	if failed != [2]error{} {
		e.Err = &wear.PairError{Left: failed[0], Right: failed[1]}
	}
	return e
}

var errNotHere = errors.New("the runner is not in this book")

// use is a runner in use as package wear asks for it.
type use struct {
	wear.InUse
	series inventory.Series
}

func (r *Role) useOf(runner *inventory.Runner, at time.Time) use {
	if runner == nil {
		return use{}
	}
	plain, series := r.kinds.Known(runner, at)
	return use{wear.InUse{Runner: plain, Since: float64(series.Since), SinceUnknown: series.SinceUnknown}, series}
}

// heightFrom is a runner's height by its forecast, or why there is none. Of what is done
// with, the last reading stands; what was never worn is as high as it was at stock-in.
func heightFrom(r *inventory.Runner, series inventory.Series, f wear.Forecast, err error, at time.Time) Height {
	h := Height{Last: series.Last(), Reference: series.Reference, Since: series.Since}
	still := series.Since == 0 && !series.SinceUnknown
	switch {
	case r.StateAt(at) == inventory.Removed:
		h.Now = r.WearAt(at).HeightFinal
	case h.Last != nil && still && (err != nil || !wears(r, at)):
		h.Now = &h.Last.Height
	case h.Last == nil && still && r.Height != nil:
		h.Now = r.Height
	case err != nil:
		h.CannotSay = whyNot(err)
	default:
		h.Now, h.Low, h.High = lengthOf(f.HeightAt(middleChance)), lengthOf(f.HeightAt(lowChance)), lengthOf(f.HeightAt(highChance))
		h.Doubts = doubts(series, f.Sound)
	}
	return h
}

const (
	lowChance    = 0.1
	middleChance = 0.5
	highChance   = 0.9
)

func lengthOf(mm float64) *geometry.Millimetre {
	length := geometry.Millimetre(mm)
	return &length
}

func whyNot(err error) string {
	switch {
	case errors.Is(err, wear.ErrPassesUnknown):
		return "some passes were not counted"
	case errors.Is(err, wear.ErrNoReading):
		return "no height is known to begin with"
	}
	return err.Error()
}

// doubts picks the readings of the last stretch that are more likely bad than sound.
func doubts(series inventory.Series, sound []float64) []Doubt {
	if len(series.Stretches) == 0 {
		return nil
	}
	readings := series.Stretches[len(series.Stretches)-1].Readings
	skipped := len(readings) - len(sound) // the one that a stretch begins with is not judged
	var list []Doubt
	for i, chance := range sound {
		last := i == len(sound)-1
		switch wear.ReadingDoubt(chance, last) {
		case wear.NotUsed:
			list = append(list, Doubt{Worn: readings[skipped+i]})
		case wear.MeasureAgain:
			list = append(list, Doubt{readings[skipped+i], true})
		}
	}
	return list
}

// measured counts the heights after passes.
func measured(series inventory.Series) int {
	count := 0
	for _, stretch := range series.Stretches {
		for _, worn := range stretch.Readings {
			if worn.Passes > 0 {
				count++
			}
		}
	}
	return count
}

// WhyNot is why a set's runners have to be measured before there is a forecast; empty
// where that is not what it lacks.
func (e Expected) WhyNot() string {
	var whys []string
	same := true
	for side, height := range e.Heights.Each {
		if height.CannotSay != "" {
			whys = append(whys, string(side)+" "+height.CannotSay)
		}
		same = same && e.Heights.Left != nil && height.CannotSay == e.Heights.Left.CannotSay
	}
	if same && len(whys) > 0 {
		return e.Heights.Left.CannotSay
	}
	return strings.Join(whys, ", ")
}
