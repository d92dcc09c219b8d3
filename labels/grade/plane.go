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
	p.convolve(kernel, 1, 0)
	p.convolve(kernel, 0, 1)
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

func (p *plane) convolve(kernel []float32, dx, dy int) {
	out, reach := make([]float32, len(p.values)), len(kernel)/2
	for y := range p.height {
		for x := range p.width {
			sum := float32(0)
			for k, weight := range kernel {
				column := min(max(x+dx*(k-reach), 0), p.width-1)
				row := min(max(y+dy*(k-reach), 0), p.height-1)
				sum += weight * p.values[row*p.width+column]
			}
			out[y*p.width+x] = sum
		}
	}
	p.values = out
}
