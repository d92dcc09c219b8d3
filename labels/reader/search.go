package reader

import (
	"cmp"
	"context"
	"image"
	"math"
	"slices"
	"sync/atomic"

	"steeltally/labels/reader/picture"
)

const (
	leastLevelSide = 40        // pixels: a smaller picture holds no symbol
	doubledAtMost  = 5_000_000 // pixels: a small picture is looked at enlarged too
	mostRegions    = 20_000    // dark regions that are looked at at one size
	mostEffort     = 2_000_000 // known modules of candidates tried in vain: 20 times a bench full of tags
	placesAtOnce   = 256       // between two looks at the effort
)

// search goes through a picture at several sizes: large modules, and blurred ones,
// are found where they are a few pixels wide.
type search struct {
	workers int
	known   *catalogue
	found   []Found
	effort  int
}

// level is the picture at one size.
type level struct {
	grey, half *picture.Grey
	scale      float64 // pixels of the picture for one of this size
}

// levels lists the sizes that are looked at: as it is, then ever smaller, and for
// a small picture, at last, enlarged.
func levels(grey *picture.Grey, workers int) []level {
	var list []level
	whole := grey
	for scale := 1.0; min(grey.Width, grey.Height) >= leastLevelSide; scale *= 2 {
		half := grey.Halved(workers)
		list = append(list, level{grey, half, scale})
		grey = half
	}
	if len(list) > 0 && whole.Width*whole.Height <= doubledAtMost {
		list = append(list, level{whole.Doubled(workers), whole, 0.5})
	}
	return list
}

// look reads the symbols that show at one size.
func (s *search) look(ctx context.Context, l level) error {
	bits := l.grey.Dark(l.half, s.workers)
	runs := bits.Runs(s.workers)
	if err := ctx.Err(); err != nil {
		return err
	}
	v := view{grey: l.grey, bits: bits, known: s.known}
	finders := findFinders(bits, runs)
	s.readAll(ctx, l, append(v.cornerPlaces(finders), v.borderPlaces(runs)...))
	if err := ctx.Err(); err != nil {
		return err
	}
	left := slices.DeleteFunc(finders, func(f finder) bool { return s.covered(f.center.Times(l.scale)) })
	closed := bits.Closed(blockGap, s.workers).Runs(s.workers)
	s.readAll(ctx, l, append(v.pairPlaces(left), v.blockPlaces(closed)...))
	return ctx.Err()
}

// readAll reads some places after the other, until the effort is spent.
func (s *search) readAll(ctx context.Context, l level, places []place) {
	for len(places) > 0 && s.effort < mostEffort && ctx.Err() == nil {
		n := min(placesAtOnce, len(places))
		for _, o := range s.readSome(l, places[:n]) {
			s.effort += o.effort
			if o.found != nil {
				s.keep(*o.found)
			}
		}
		places = places[n:]
	}
}

// readSome shares places among the workers.
func (s *search) readSome(l level, places []place) []outcome {
	outcomes := make([]outcome, len(places))
	var next atomic.Int64
	var group picture.Crew
	for range s.workers {
		group.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(places)); i = next.Add(1) - 1 {
				outcomes[i] = s.read(l, places[i])
			}
		})
	}
	group.Wait()
	return outcomes
}

// read reads a place, unless it lies in a symbol that was read before.
func (s *search) read(l level, p place) outcome {
	if s.covered(p.spot.Times(l.scale)) {
		return outcome{}
	}
	o := p.read()
	if o.found != nil {
		o.found.Outline = o.found.Outline.Times(l.scale)
	}
	return o
}

// covered tells whether a point lies in a symbol that was read.
func (s *search) covered(p picture.Point) bool {
	return slices.ContainsFunc(s.found, func(f Found) bool { return f.Outline.Contains(p) })
}

// keep adds a symbol unless it is one that was read already.
func (s *search) keep(f Found) {
	center := f.Outline.Center()
	known := slices.ContainsFunc(s.found, func(g Found) bool { return g.Text == f.Text && g.Outline.Contains(center) })
	if !known {
		s.found = append(s.found, f)
	}
}

// results sorts what was found from top to bottom, for a picture whose top left
// corner is at origin.
func (s *search) results(origin image.Point, accept func(string) bool) []Found {
	var wanted []Found
	for _, f := range s.found {
		if accept != nil && !accept(f.Text) {
			continue
		}
		for i, p := range f.Outline {
			f.Corners[i] = origin.Add(image.Pt(int(math.Round(p.X)), int(math.Round(p.Y))))
		}
		wanted = append(wanted, f)
	}
	slices.SortStableFunc(wanted, func(a, b Found) int {
		ca, cb := a.Outline.Center(), b.Outline.Center()
		return cmp.Or(cmp.Compare(ca.Y, cb.Y), cmp.Compare(ca.X, cb.X))
	})
	return wanted
}
