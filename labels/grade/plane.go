package grade

import "math"

// plane is how much of each simulated pixel is covered by ink, 0 to 1.
type plane struct {
	width, height int
	values        []float32
}

func newPlane(width, height int) *plane {
	return &plane{width, height, make([]float32, width*height)}
}

// dot covers a square of dotPixels from a corner on, and what is less than spread
// pixels away from it.
func (p *plane) dot(left, top int, spread float64) {
	reach := int(spread)
	for y := max(top-reach, 0); y < min(top+dotPixels+reach, p.height); y++ {
		for x := max(left-reach, 0); x < min(left+dotPixels+reach, p.width); x++ {
			dx, dy := beyond(x, left, left+dotPixels-1), beyond(y, top, top+dotPixels-1)
			if float64(dx*dx+dy*dy) <= spread*spread {
				p.values[y*p.width+x] = 1
			}
		}
	}
}

// beyond is how far a place is from a stretch.
func beyond(at, first, last int) int { return max(first-at, at-last, 0) }

// blur spreads every pixel by a Gaussian of a standard deviation, along rows, then
// along columns; beyond the edge, the edge goes on.
func (p *plane) blur(deviation float64) {
	if deviation <= 0 {
		return
	}
	kernel := gaussian(deviation)
	p.blurRows(kernel)
	p.blurColumns(kernel)
}

func gaussian(deviation float64) []float32 {
	reach := int(math.Ceil(3 * deviation))
	kernel, sum := make([]float32, 2*reach+1), float32(0)
	for i := range kernel {
		d := float64(i-reach) / deviation
		kernel[i] = float32(math.Exp(-d * d / 2))
		sum += kernel[i]
	}
	for i := range kernel {
		kernel[i] /= sum
	}
	return kernel
}

func (p *plane) row(y int) []float32 { return p.values[y*p.width : (y+1)*p.width] }

func (p *plane) blurRows(kernel []float32) {
	reach := len(kernel) / 2
	padded := make([]float32, p.width+2*reach)
	for y := range p.height {
		row := p.row(y)
		for i := range padded {
			padded[i] = row[min(max(i-reach, 0), p.width-1)]
		}
		clear(row)
		for k, weight := range kernel {
			addScaled(row, padded[k:], weight)
		}
	}
}

func (p *plane) blurColumns(kernel []float32) {
	out, reach := newPlane(p.width, p.height), len(kernel)/2
	for y := range p.height {
		for k, weight := range kernel {
			addScaled(out.row(y), p.row(min(max(y+k-reach, 0), p.height-1)), weight)
		}
	}
	p.values = out.values
}

// addScaled adds as many values as there is room for, each times a factor.
func addScaled(to, values []float32, factor float32) {
	values = values[:len(to)]
	for i, v := range values {
		to[i] += factor * v
	}
}
