package reader_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"testing"

	"steeltally/labels/reader/picture"
)

// scene describes a photograph of a bench full of tags.
type scene struct {
	draw          drawTag
	width, height int     // pixels
	columns, rows int     // of places for tags
	module        float64 // pixels that the smallest QR Code module measures at least
	tilt          float64 // degrees that a tag is tilted, at most
	distance      float64 // millimetres from the camera to a tag
	turn          func(*rand.Rand) float64
	blur          float64 // standard deviation, pixels
	noise         float64 // standard deviation, of 255
	darkest       float64 // light in the darkest place, 1 in the brightest
	paper, ink    float64 // brightness in full light, of 255
	quality       int     // JPEG
}

// benchScene is the photograph that the reader is measured by: 12 megapixels, 24
// tags, each turned at random and tilted on its own.
func benchScene() scene {
	return scene{
		draw: tieOnTag, width: 4000, height: 3000, columns: 6, rows: 4, module: 4,
		tilt: 20, distance: 350, turn: anyTurn, blur: 0.9, noise: 4,
		darkest: 0.45, paper: 225, ink: 35, quality: 70,
	}
}

// cornerScene is a corner of the same photograph, quicker to draw.
func cornerScene() scene {
	s := benchScene()
	s.width, s.height, s.columns, s.rows = 1340, 750, 2, 1
	return s
}

// pageScene is an A4 page of 24 tags as a scanner sees it.
func pageScene(dpi int) scene {
	s := benchScene()
	s.width, s.height, s.columns, s.rows = 8268*dpi/1000, 11693*dpi/1000, 2, 8
	s.module, s.tilt, s.turn = qrDots*float64(dpi)/203, 0, upright
	s.blur, s.noise, s.darkest, s.quality = 0.5*float64(dpi)/203, 2, 1, 85
	return s
}

func anyTurn(random *rand.Rand) float64 { return random.Float64() * 2 * math.Pi }
func upright(*rand.Rand) float64        { return 0 }
func upsideDown(*rand.Rand) float64     { return math.Pi }

// placedTag is a tag and where its corners lie in the photograph.
type placedTag struct {
	mockTag
	outline picture.Quad
}

// render draws the photograph; it fails the test where a module is too small.
func (s scene) render(t testing.TB, random *rand.Rand) (image.Image, []placedTag) {
	t.Helper()
	light := s.newLight(random)
	plane := s.woodenBench(random)
	var tags []placedTag
	for i := range s.columns * s.rows {
		tag := placedTag{mockTag: s.draw(t, random, 427+31*i+1000*random.IntN(900))}
		tag.outline = s.lay(random, i)
		if m := leastModule(tag.outline); m < s.module-1e-6 {
			t.Fatalf("tag %d has modules of %.2f pixels, wanted %.2f", i, m, s.module)
		}
		s.paint(plane, tag)
		tags = append(tags, tag)
	}
	return s.expose(t, plane, light, random), tags
}

// lay finds the corners of a tag in its place: turned, then tilted, then made just
// large enough that no QR Code module measures less than it should.
func (s scene) lay(random *rand.Rand, i int) picture.Quad {
	turn, axis, tilt := s.turn(random), anyTurn(random), random.Float64()*s.tilt*math.Pi/180
	outline := s.project(turn, axis, tilt)
	outline = outline.Times(s.module * (1 + 0.05*random.Float64()) / leastModule(outline))
	center := picture.Point{
		X: (float64(i%s.columns) + 0.5) * float64(s.width) / float64(s.columns),
		Y: (float64(i/s.columns) + 0.5) * float64(s.height) / float64(s.rows),
	}
	for k := range outline {
		outline[k] = outline[k].Plus(center)
	}
	return outline
}

// project turns a tag in its plane, tilts it about an axis in that plane and looks
// at it from the camera's distance; pixels are millimetres at its center.
func (s scene) project(turn, axis, tilt float64) picture.Quad {
	w, h := tagWidth/dotsPerMillimetre/2, tagHeight/dotsPerMillimetre/2
	var outline picture.Quad
	for i, c := range [4]picture.Point{{X: -w, Y: -h}, {X: w, Y: -h}, {X: w, Y: h}, {X: -w, Y: h}} {
		p := rotated(rotated(c, turn), -axis)
		depth := s.distance + p.Y*math.Sin(tilt)
		p = picture.Point{X: p.X * s.distance / depth, Y: p.Y * math.Cos(tilt) * s.distance / depth}
		outline[i] = rotated(p, axis)
	}
	return outline
}

func rotated(p picture.Point, angle float64) picture.Point {
	sin, cos := math.Sincos(angle)
	return picture.Point{X: p.X*cos - p.Y*sin, Y: p.X*sin + p.Y*cos}
}

// leastModule is the smallest length, in pixels, that a QR Code module's side has
// anywhere on a tag.
func leastModule(outline picture.Quad) float64 {
	lens := picture.OntoQuad(tagWidth, tagHeight, outline)
	least := math.Inf(1)
	for _, x := range []float64{0, tagWidth - qrDots} {
		for _, y := range []float64{0, tagHeight - qrDots} {
			p := lens.At(x, y)
			least = min(least, lens.At(x+qrDots, y).Minus(p).Length(), lens.At(x, y+qrDots).Minus(p).Length())
		}
	}
	return least
}

// paint lays the tag over the picture, nine points a pixel.
func (s scene) paint(plane []float64, tag placedTag) {
	left, top, right, bottom := bounds(tag.outline)
	lens := picture.OntoQuad(tagWidth, tagHeight, tag.outline)
	for y := max(top, 0); y < min(bottom, s.height); y++ {
		dot := picture.Point{X: tagWidth / 2, Y: tagHeight / 2}
		for x := max(left, 0); x < min(right, s.width); x++ {
			var across, down picture.Point
			dot, across, down = unproject(lens, picture.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}, dot)
			sum, hits := 0.0, 0
			for k := range 9 {
				p := dot.Plus(across.Times(float64(k%3-1) / 3)).Plus(down.Times(float64(k/3-1) / 3))
				if p.X >= 0 && p.Y >= 0 && p.X < tagWidth && p.Y < tagHeight {
					sum += s.ink + (s.paper-s.ink)*float64(tag.dots.Pix[int(p.Y)*tagWidth+int(p.X)])/255
					hits++
				}
			}
			i := y*s.width + x
			plane[i] = (sum + plane[i]*float64(9-hits)) / 9
		}
	}
}

// unproject finds the dot of a tag that is seen at a point, by Newton's method from
// a dot nearby, and how far the dot moves for a step of one pixel across and down.
func unproject(lens picture.Homography, p, dot picture.Point) (at, across, down picture.Point) {
	for range 8 {
		seen := lens.At(dot.X, dot.Y)
		du, dv := lens.At(dot.X+1, dot.Y).Minus(seen), lens.At(dot.X, dot.Y+1).Minus(seen)
		det := du.Cross(dv)
		across, down = picture.Point{X: dv.Y / det, Y: -du.Y / det}, picture.Point{X: -dv.X / det, Y: du.X / det}
		miss := p.Minus(seen)
		dot = dot.Plus(across.Times(miss.X)).Plus(down.Times(miss.Y))
		if miss.Length() < 1e-3 {
			break
		}
	}
	return dot, across, down
}

func bounds(q picture.Quad) (left, top, right, bottom int) {
	left, top, right, bottom = math.MaxInt, math.MaxInt, 0, 0
	for _, p := range q {
		left, right = min(left, int(p.X)), max(right, int(p.X)+2)
		top, bottom = min(top, int(p.Y)), max(bottom, int(p.Y)+2)
	}
	return left, top, right, bottom
}

// woodenBench is a background of boards, grain and seams, brighter than ink and
// darker than paper.
func (s scene) woodenBench(random *rand.Rand) []float64 {
	plane := make([]float64, s.width*s.height)
	phase, board := random.Float64()*100, 300+random.Float64()*200
	grain := make([]float64, s.width)
	for x := range grain {
		grain[x] = math.Sin(float64(x)/400 + phase)
	}
	for y := range s.height {
		wave := 14*math.Sin(float64(y)/9+phase) + 8*math.Sin(float64(y)/3.1+2*phase)
		seam := math.Mod(float64(y), board) < 4
		for x := range s.width {
			v := 120 + wave*(0.6+0.4*grain[x])
			if seam {
				v = 50
			}
			plane[y*s.width+x] = v
		}
	}
	return plane
}

// light is a slope across the picture and a soft shadow.
type light struct {
	dx, dy, x, y, radius, darkest float64
}

func (s scene) newLight(random *rand.Rand) light {
	angle := random.Float64() * 2 * math.Pi
	return light{
		dx: math.Cos(angle), dy: math.Sin(angle),
		x: random.Float64(), y: random.Float64(), radius: 0.15 + 0.2*random.Float64(), darkest: s.darkest,
	}
}

// at is the light at a place, each coordinate from 0 to 1.
func (l light) at(x, y float64) float64 {
	slope := 0.5 + 0.5*((x-0.5)*l.dx+(y-0.5)*l.dy)
	shadow := 0.6 * math.Exp(-((x-l.x)*(x-l.x)+(y-l.y)*(y-l.y))/(l.radius*l.radius))
	return l.darkest + (1-l.darkest)*slope*(1-shadow)
}

// expose adds light, blur, noise and compression, as a camera does.
func (s scene) expose(t testing.TB, plane []float64, l light, random *rand.Rand) image.Image {
	t.Helper()
	for y := range s.height {
		for x := range s.width {
			plane[y*s.width+x] *= l.at(float64(x)/float64(s.width), float64(y)/float64(s.height))
		}
	}
	plane = blurred(plane, s.width, s.height, s.blur)
	photo := image.NewRGBA(image.Rect(0, 0, s.width, s.height))
	for i, v := range plane {
		v = min(max(v+s.noise*random.NormFloat64(), 0), 255)
		copy(photo.Pix[4*i:], []uint8{uint8(v), uint8(v * 0.97), uint8(v * 0.9), 255})
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, photo, &jpeg.Options{Quality: s.quality}); err != nil {
		t.Fatal(err)
	}
	img, err := jpeg.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// blurred spreads every pixel by a Gaussian, along rows, then along columns.
func blurred(plane []float64, width, height int, sigma float64) []float64 {
	if sigma <= 0 {
		return plane
	}
	kernel := gaussian(sigma)
	return convolved(convolved(plane, kernel, width, height, 1, 0), kernel, width, height, 0, 1)
}

func gaussian(sigma float64) []float64 {
	reach := int(math.Ceil(3 * sigma))
	kernel, sum := make([]float64, 2*reach+1), 0.0
	for i := range kernel {
		d := float64(i - reach)
		kernel[i] = math.Exp(-d * d / (2 * sigma * sigma))
		sum += kernel[i]
	}
	for i := range kernel {
		kernel[i] /= sum
	}
	return kernel
}

func convolved(plane, kernel []float64, width, height, dx, dy int) []float64 {
	out, reach := make([]float64, len(plane)), len(kernel)/2
	for y := range height {
		for x := range width {
			edge := x < reach || y < reach || x >= width-reach || y >= height-reach
			sum, i := 0.0, y*width+x-reach*(dx+dy*width)
			for k, weight := range kernel {
				if edge {
					column, row := min(max(x+dx*(k-reach), 0), width-1), min(max(y+dy*(k-reach), 0), height-1)
					i = row*width + column
				}
				sum += weight * plane[i]
				i += dx + dy*width
			}
			out[y*width+x] = sum
		}
	}
	return out
}
