package reader

import "steeltally/labels/reader/modules"

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
