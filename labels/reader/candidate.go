package reader

import (
	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// candidate is a place where a symbol may lie, and what it would look like there.
type candidate struct {
	grid
	symbology symbol.Symbology
	known     []modules.Known
	share     float64 // of the known modules that fit, before refining
}

// What must be seen of the known modules of a symbol before it is decoded, and of
// one that leaves the error correction nothing to spare.
const (
	leastContrast = 12   // of 255
	leastShare    = 0.70 // before refining, of QR Code
	matrixShare   = 0.80 // before refining, of Data Matrix: much of a page looks like less
	sureShare     = 0.80 // after refining
	surePart      = 0.60 // after refining, of each part
	cleanShare    = 0.95
	// weakestColumns is the width of the smallest Data Matrix: with all of its error
	// correction used, two in a million random symbols would pass.
	weakestColumns = 10
)

// promising tells whether the known modules show, at least that share of them,
// where they should.
func (c *candidate) promising(grey *picture.Grey, share float64) bool {
	m := c.match(grey, c.known)
	c.share = m.share
	return m.contrast >= leastContrast && m.share >= share
}

// decode refines a candidate and asks the error correction what it says.
func (c candidate) decode(grey *picture.Grey) (Found, bool) {
	refined := c.refined(grey, c.known)
	m := refined.match(grey, c.known)
	if m.contrast < leastContrast || m.share < sureShare || m.least < surePart {
		return Found{}, false
	}
	for _, reading := range refined.sample(grey).readings() {
		decoded, err := c.read(reading)
		if err != nil || decoded.Text == "" {
			continue
		}
		if decoded.Spare() > 0 || m.share >= cleanShare && c.columns > weakestColumns {
			return Found{
				Text: decoded.Text, Symbology: c.symbology,
				Outline: refined.outline, Columns: c.columns, Rows: c.rows,
			}, true
		}
	}
	return Found{}, false
}

// read decodes modules by the candidate's own symbology.
func (c candidate) read(m *modules.Matrix) (modules.Decoded, error) {
	if c.symbology == symbol.QR {
		return modules.DecodeQR(m)
	}
	return modules.DecodeDataMatrix(m)
}

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

// catalogue holds the known modules of every kind and size of symbol that is
// looked for. It is built once for a picture and only read from then on.
type catalogue struct {
	qr         map[int][]modules.Known // by modules a side
	alignment  map[int][]modules.Known
	dataMatrix []sizedPattern
}

// sizedPattern is the known modules of one size of Data Matrix.
type sizedPattern struct {
	modules.DataMatrixSize
	known []modules.Known
}

func newCatalogue() *catalogue {
	c := &catalogue{qr: map[int][]modules.Known{}, alignment: map[int][]modules.Known{}}
	for side := modules.LeastQRSide; side <= modules.MostQRSide; side += modules.QRSideStep {
		c.qr[side] = modules.KnownQR(side)
		c.alignment[side] = modules.AlignmentPattern(side)
	}
	for _, size := range modules.DataMatrixSizes() {
		c.dataMatrix = append(c.dataMatrix, sizedPattern{size, modules.KnownDataMatrix(size)})
	}
	return c
}
