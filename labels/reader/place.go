package reader

import "steeltally/labels/reader/picture"

// view is what places and candidates are judged by: the picture at one size.
type view struct {
	grey  *picture.Grey
	bits  *picture.Bits
	known *catalogue
}

// place is a spot in the picture that may be in a symbol, and the reading of it.
type place struct {
	spot picture.Point
	read func() outcome
}

// outcome is what was found at a place, nil for nothing, its outline in pixels of
// the size that is looked at; and the effort that went into what was not found.
type outcome struct {
	found  *Found
	effort int // known modules of the candidates that were tried in vain
}

// first reads the first of some candidates that can be read.
func (v view) first(candidates []candidate) outcome {
	effort := 0
	for _, c := range candidates {
		if c.moduleSize() < leastModuleSize {
			continue
		}
		if found, ok := c.decode(v.grey); ok {
			return outcome{&found, effort}
		}
		effort += len(c.known)
	}
	return outcome{nil, effort}
}

// cornerPlaces are where three finder patterns may make a QR Code symbol.
func (v view) cornerPlaces(finders []finder) []place {
	var places []place
	for _, c := range findCorners(finders) {
		places = append(places, place{c.spot(), func() outcome { return v.first(c.candidates(v)) }})
	}
	return places
}

// pairPlaces are where two finder patterns may be left of a QR Code symbol.
func (v view) pairPlaces(finders []finder) []place {
	var places []place
	for _, p := range findPairs(finders) {
		places = append(places, place{p.spot(), func() outcome { return v.first(p.candidates(v)) }})
	}
	return places
}

// borderPlaces are where a dark region may be the border of a Data Matrix symbol.
func (v view) borderPlaces(runs *picture.Runs) []place {
	var places []place
	regions := runs.Regions(leastBorderSide, mostBorderSide)
	for _, r := range regions[:min(len(regions), mostRegions)] {
		middle := r.Runs[len(r.Runs)/2]
		spot := picture.Point{X: float64(middle.From), Y: float64(middle.Y)}
		places = append(places, place{spot, func() outcome { return v.first(borderCandidates(r, v)) }})
	}
	return places
}

// blockPlaces are where a rectangular block may be a Data Matrix symbol whose
// border is broken, or a Code 128 symbol.
func (v view) blockPlaces(closed *picture.Runs) []place {
	var places []place
	regions := closed.Regions(leastBlockSide, mostBlockSide)
	for _, r := range regions[:min(len(regions), mostRegions)] {
		outline := picture.Rectangle(r.Hull())
		if matrixLike(outline, r.Pixels) {
			places = append(places, place{outline.Center(), func() outcome { return v.first(blockCandidates(outline, v)) }})
		}
		if barsLike(outline, r.Pixels) {
			places = append(places, place{outline.Center(), func() outcome { return outcome{readBars(v.grey, outline), 0} }})
		}
	}
	return places
}
