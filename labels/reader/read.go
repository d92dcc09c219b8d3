// Package reader finds the symbols in a photograph or a scan of tags and says
// what they say. It looks for QR Code, Data Matrix and Code 128 symbols itself and
// leaves their error correction to a library.
package reader

import (
	"context"
	"errors"
	"fmt"
	"image"
	"runtime"

	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// Found is a symbol that was read.
type Found struct {
	Text      string
	Symbology symbol.Symbology
	// Corners of the symbol in pixels of the picture, clockwise, the symbol's own
	// top left first.
	Corners [4]image.Point
	// Outline is the corners to a fraction of a pixel, from the picture's top left.
	Outline picture.Quad
	// Columns and Rows are its size in modules.
	Columns, Rows int
}

// Options say what is taken from a picture.
type Options struct {
	// Accept tells whether a text is wanted; nil takes every text. A text that is
	// not wanted is read but not returned.
	Accept func(text string) bool
	// Workers is how many goroutines share the work; less than one: one for each core.
	Workers int
}

// ErrNoPicture says that there is nothing to look at.
var ErrNoPicture = errors.New("the picture has no pixels")

// Read finds all symbols of a picture, from top to bottom. No symbol is no error. A
// picture full of what only looks like symbols is given up after a fixed effort.
// It ends early, with the context's error, when the context is done.
func Read(ctx context.Context, img image.Image, o Options) ([]Found, error) {
	bounds := img.Bounds()
	if bounds.Empty() {
		return nil, ErrNoPicture
	}
	if err := checkSize(bounds.Dx(), bounds.Dy()); err != nil {
		return nil, err
	}
	workers := o.Workers
	if workers < 1 {
		workers = runtime.GOMAXPROCS(0)
	}
	search := &search{workers: workers, known: newCatalogue()}
	for _, l := range levels(picture.FromImage(img, workers), workers) {
		if err := search.look(ctx, l); err != nil {
			return nil, fmt.Errorf("reading a picture: %w", err)
		}
	}
	return search.results(bounds.Min, o.Accept), nil
}
