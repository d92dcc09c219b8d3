package reader_test

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
)

// damaged draws a tag, then lets something happen to it.
func damaged(draw drawTag, harm func(mockTag, *rand.Rand)) drawTag {
	return func(t testing.TB, random *rand.Rand, running int) mockTag {
		t.Helper()
		tag := draw(t, random, running)
		harm(tag, random)
		return tag
	}
}

// scratch crosses the whole tag, a QR Code module wide.
func scratch(value uint8) func(mockTag, *rand.Rand) {
	return func(tag mockTag, random *rand.Rand) {
		x, y := random.Float64()*tagWidth, random.Float64()*tagHeight
		sin, cos := math.Sincos(random.Float64() * math.Pi)
		tag.stain(value, func(dx, dy float64) bool { return math.Abs(dx*sin-dy*cos) < qrDots/2 }, x, y)
	}
}

// blob covers a share of the tag's area, black or white.
func blob(share float64) func(mockTag, *rand.Rand) {
	return func(tag mockTag, random *rand.Rand) {
		radius := math.Sqrt(share * tagWidth * tagHeight / math.Pi)
		value := uint8(255 * random.IntN(2))
		x, y := random.Float64()*tagWidth, random.Float64()*tagHeight
		tag.stain(value, func(dx, dy float64) bool { return math.Hypot(dx, dy) < radius }, x, y)
	}
}

// stain gives the dots that lie so from a point one brightness.
func (tag mockTag) stain(value uint8, covers func(dx, dy float64) bool, x, y float64) {
	for row := range tagHeight {
		for column := range tagWidth {
			if covers(float64(column)-x, float64(row)-y) {
				tag.dots.SetGray(column, row, color.Gray{Y: value})
			}
		}
	}
}

// speckle covers a share of the area with black and white specks, each as large as
// a QR Code module and anywhere.
func speckle(share float64) func(mockTag, *rand.Rand) {
	return func(tag mockTag, random *rand.Rand) {
		for range int(share * tagWidth * tagHeight / (qrDots * qrDots)) {
			at := image.Pt(random.IntN(tagWidth), random.IntN(tagHeight))
			tag.fill(image.Rectangle{Min: at, Max: at.Add(image.Pt(qrDots, qrDots))}, uint8(255*random.IntN(2)))
		}
	}
}
