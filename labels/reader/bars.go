package reader

import (
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/oned"

	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// A Code 128 symbol is read along several lines across its bars. Its check
// character lets one misread line in a hundred through, so lines must agree.
const (
	leastBarsFill  = 0.6  // of the area of the smallest rectangle around the bars
	leastBarsRatio = 1.2  // of the rectangle's length to the height of its bars
	scanLines      = 9    // across the middle of the bars
	scanBand       = 0.7  // of the height of the bars, that the lines are spread over
	agreeingLines  = 3    // that must say the same, and none another
	leastBarsText  = 4    // characters: bars of a letter or two also look like fewer
	quietShare     = 0.12 // of the length, looked at beyond each end
	lineWidth      = 0.1  // of the height of the bars
	scanStep       = 0.25 // pixels
)

// barsLike tells whether a region of so many pixels fills its rectangle as bars do.
func barsLike(outline picture.Quad, pixels int) bool {
	length, height := sidesOf(outline)
	long, short := max(length, height), min(length, height)
	return long >= leastBarsRatio*short && float64(pixels) >= leastBarsFill*length*height
}

// sidesOf is the length and the height of a rectangle.
func sidesOf(q picture.Quad) (length, height float64) {
	return q[1].Minus(q[0]).Length(), q[3].Minus(q[0]).Length()
}

// readBars reads the rectangle along its longer side, both ways.
func readBars(grey *picture.Grey, outline picture.Quad) *Found {
	if length, height := sidesOf(outline); length < height {
		outline = turned(outline, 1)
	}
	for _, way := range []picture.Quad{outline, turned(outline, 2)} {
		if text := agreedText(grey, way); text != "" {
			return &Found{Text: text, Symbology: symbol.Code128, Outline: way, Rows: 1}
		}
	}
	return nil
}

// turned counts the corners of a quad from another one.
func turned(q picture.Quad, corners int) picture.Quad {
	var out picture.Quad
	for i := range out {
		out[i] = q[(i+corners)%4]
	}
	return out
}

// agreedText is what several lines say and none contradicts; else nothing.
func agreedText(grey *picture.Grey, outline picture.Quad) string {
	lens := picture.OntoQuad(1, 1, outline)
	said, agreed := "", 0
	for i := range scanLines {
		height := 0.5 + scanBand*(float64(i)/(scanLines-1)-0.5)
		text := decodeRow(scanRow(grey, func(along, across float64) picture.Point {
			return lens.At(along*(1+2*quietShare)-quietShare, height+across*lineWidth)
		}, outline[1].Minus(outline[0]).Length()))
		switch {
		case text == "":
		case said == "" || text == said:
			said, agreed = text, agreed+1
		default:
			return ""
		}
	}
	if agreed < agreeingLines {
		return ""
	}
	return said
}

// scanRow tells dark from light along a line, point by point, by what is halfway
// between the darkest and the brightest of its neighbourhood. Each point is the mean
// of five across the line, which evens out noise and blemishes; at gives the place
// of a point from 0 to 1 along and from -½ to ½ across.
func scanRow(grey *picture.Grey, at func(along, across float64) picture.Point, length float64) *gozxing.BitArray {
	points := max(int(length*(1+2*quietShare)/scanStep), 1)
	values := make([]float64, points)
	for i := range values {
		for across := -2; across <= 2; across++ {
			p := at(float64(i)/float64(points), float64(across)/4)
			values[i] += grey.At(p.X, p.Y) / 5
		}
	}
	row := gozxing.NewBitArray(points)
	const windows = 12 // overlapping by half
	for w := range windows {
		start, end := points*w/windows, points*(w+1)/windows
		darkest, lightest := extremes(values[max(0, 2*start-end):min(points, 2*end-start)])
		for i := start; i < end; i++ {
			if lightest-darkest >= leastContrast && values[i] < (darkest+lightest)/2 {
				row.Set(i)
			}
		}
	}
	return row
}

func extremes(values []float64) (darkest, lightest float64) {
	if len(values) == 0 {
		return 0, 0
	}
	darkest, lightest = values[0], values[0]
	for _, v := range values {
		darkest, lightest = min(darkest, v), max(lightest, v)
	}
	return darkest, lightest
}

// decodeRow is the text of a row of dark and light, or nothing.
func decodeRow(row *gozxing.BitArray) string {
	decoder, ok := oned.NewCode128Reader().(oned.RowDecoder)
	if !ok {
		return ""
	}
	result, err := decoder.DecodeRow(0, row, nil)
	if err != nil || len(result.GetText()) < leastBarsText {
		return ""
	}
	return result.GetText()
}
