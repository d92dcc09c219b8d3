package reader

import "steeltally/labels/reader/picture"

// A Data Matrix symbol whose solid border is broken is looked for as a block: its
// modules lie so close that, with the gaps between them closed, they make one
// region, nearly a rectangle.
const (
	blockGap       = 7 // pixels: a module, at the sizes that symbols are found at
	leastBlockSide = 30
	mostBlockSide  = 1000
	leastBlockFill = 0.5 // of the area of the smallest rectangle around it
	mostBlockRatio = 4.5 // of its sides
)

// matrixLike tells whether a region of so many pixels fills its rectangle as a
// symbol does.
func matrixLike(outline picture.Quad, pixels int) bool {
	width, height := sidesOf(outline)
	long, short := max(width, height), min(width, height)
	return short >= leastBlockSide/2 && long <= mostBlockRatio*short && float64(pixels) >= leastBlockFill*width*height
}

// blockCandidates tries each corner of the rectangle as that of the solid border.
func blockCandidates(outline picture.Quad, v view) []candidate {
	var found []candidate
	for turn := range 4 {
		l := borderL{top: outline[turn], corner: outline[(turn+3)%4], right: outline[(turn+2)%4]}
		found = append(found, l.candidates(v)...)
	}
	return likeliest(found)
}
