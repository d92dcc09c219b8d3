package wear

import (
	"fmt"
	"math"

	"steeltally/inventory/wear/stats"
)

// Knowledge is what a club has learnt from its record.
type Knowledge struct {
	Pool             Pool
	NewHeights       []stats.Estimate // by kind; zero where the nominal height is not known
	CaliperVariances map[int]float64  // by reference, mm²
	Triples          map[int]int      // readings that each of these rests on
	constants        Constants
	record           Record
	earlier          [][]PairWear // by player and pair; a pair that tells nothing has no sides
}

// Learn goes through a record once: the caliper, the new heights, every earlier
// runner, and the pool of them.
func (c Constants) Learn(record Record) (Knowledge, error) {
	if err := record.check(); err != nil {
		return Knowledge{}, err
	}
	k := Knowledge{constants: c, record: record, CaliperVariances: map[int]float64{}, Triples: map[int]int{}}
	k.learnCalipers()
	if err := k.learnNewHeights(); err != nil {
		return Knowledge{}, err
	}
	if err := k.learnEarlier(); err != nil {
		return Knowledge{}, err
	}
	var err error
	k.Pool, err = c.NewPool(telling(k.earlier))
	return k, err
}

// learnCalipers takes every reference's readings, of earlier and present runners.
func (k *Knowledge) learnCalipers() {
	segments := map[int][]Segment{}
	for _, kind := range k.record.Kinds {
		segments[kind.Reference] = nil
	}
	for _, r := range k.record.runners(true) {
		reference := k.record.Kinds[r.Kind].Reference
		for _, s := range r.Stretches {
			segments[reference] = append(segments[reference], Segment{Readings: s.Readings})
		}
	}
	for reference, s := range segments {
		k.CaliperVariances[reference], k.Triples[reference] = k.constants.CaliperVariance(s)
	}
}

// learnNewHeights takes the earlier runners' stretches that began new.
func (k *Knowledge) learnNewHeights() error {
	segments := make([][]Segment, len(k.record.Kinds))
	for _, r := range k.record.runners(false) {
		for _, s := range r.Stretches {
			if s.New {
				variance := k.CaliperVariances[k.record.Kinds[r.Kind].Reference]
				segments[r.Kind] = append(segments[r.Kind], Segment{Readings: s.Readings, CaliperVariance: variance})
			}
		}
	}
	k.NewHeights = make([]stats.Estimate, len(k.record.Kinds))
	for i, kind := range k.record.Kinds {
		if kind.Nominal == 0 {
			continue
		}
		height, err := k.constants.NewHeight(kind.Nominal, segments[i])
		if err != nil {
			return fmt.Errorf("kind %d: %w", i+1, err)
		}
		k.NewHeights[i] = height
	}
	return nil
}

func (k *Knowledge) learnEarlier() error {
	k.earlier = make([][]PairWear, len(k.record.Players))
	for i, pairs := range k.record.Players {
		for j, p := range pairs {
			var w PairWear
			for _, r := range p.sides() {
				if !r.Tells() {
					continue
				}
				side, err := k.constants.EarlierRunner(k.segments(r))
				if err != nil {
					return fmt.Errorf("player %d, pair %d: %w", i+1, j+1, err)
				}
				w.Sides = append(w.Sides, side)
			}
			k.earlier[i] = append(k.earlier[i], w)
		}
	}
	return nil
}

// telling leaves out the pairs that tell nothing.
func telling(players [][]PairWear) [][]PairWear {
	some := make([][]PairWear, len(players))
	for i, pairs := range players {
		for _, w := range pairs {
			if len(w.Sides) > 0 {
				some[i] = append(some[i], w)
			}
		}
	}
	return some
}

// segments is a runner's life with what the club knows of its kind; nothing of it where
// no height is known.
func (k Knowledge) segments(r Runner) []Segment {
	if !r.known() {
		return nil
	}
	variance := k.CaliperVariances[k.record.Kinds[r.Kind].Reference]
	var segments []Segment
	for _, s := range r.Stretches {
		segment := Segment{CaliperVariance: variance, Readings: s.Readings}
		if s.New {
			segment.New = k.NewHeights[r.Kind]
		}
		if segment.check() == ErrNoReading {
			continue // nobody knows from where on it lost anything
		}
		segments = append(segments, segment)
	}
	return segments
}

const (
	earlierPoints = 81 // grid of an earlier runner's log loss
	earlierReach  = 1  // to either side, in log loss
)

// EarlierRunner is the log loss per pass (mm) that a removed runner's heights
// show by themselves, with its variance: mean and variance of the normalised
// likelihood on a grid of ±1 about where its heights point.
func (c Constants) EarlierRunner(segments []Segment) (stats.Estimate, error) {
	if err := checkSegments(segments); err != nil {
		return stats.Estimate{}, fmt.Errorf("earlier runner: %w", err)
	}
	g := newGrid(c.pointedAt(segments), earlierReach, earlierPoints).filter(c, segments, 0)
	var mean, square float64
	for i, w := range normalised(g.log) {
		d := g.logLoss[i] - g.logLoss[0]
		mean += w * d
		square += w * d * d
	}
	return stats.Estimate{Value: g.logLoss[0] + mean, Variance: square - mean*mean}, nil
}

// pointedAt is the median log loss from each segment's beginning to its
// readings; the usual one where none lies lower.
func (c Constants) pointedAt(segments []Segment) float64 {
	var logs []float64
	for _, s := range segments {
		start, passes, readings := s.begin()
		for _, r := range readings {
			lost, ground := start.mean-float64(r.Height), r.Passes-passes
			if lost > 0 && ground > 0 {
				logs = append(logs, math.Log(lost/ground))
			}
		}
	}
	if len(logs) == 0 {
		return c.logLoss()
	}
	return stats.Median(logs)
}
