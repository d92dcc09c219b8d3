package picture

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
)

// TestFromImage takes the brightness of every kind of picture, whole or a part.
func TestFromImage(t *testing.T) {
	area, part := image.Rect(-3, 5, 17, 26), image.Rect(0, 7, 11, 22)
	gray, colour, photo := image.NewGray(area), image.NewNRGBA(area), image.NewYCbCr(area, image.YCbCrSubsampleRatio420)
	random := rand.New(rand.NewPCG(1, 1))
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			v := uint8(random.IntN(256))
			gray.SetGray(x, y, color.Gray{Y: v})
			colour.SetNRGBA(x, y, color.NRGBA{v, v, v, 255})
			photo.Y[photo.YOffset(x, y)] = v
		}
	}
	for name, img := range map[string]image.Image{
		"grey": gray.SubImage(part), "colour": colour.SubImage(part), "photograph": photo.SubImage(part),
	} {
		grey := FromImage(img, 3)
		if grey.Width != part.Dx() || grey.Height != part.Dy() {
			t.Fatalf("%s: %d × %d", name, grey.Width, grey.Height)
		}
		for i, v := range grey.Pix {
			if want := gray.GrayAt(part.Min.X+i%grey.Width, part.Min.Y+i/grey.Width).Y; v != want {
				t.Fatalf("%s: pixel %d is %d, wanted %d", name, i, v, want)
			}
		}
	}
}

// TestTransparentIsWhite lays a picture on white paper.
func TestTransparentIsWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	img.SetNRGBA(1, 0, color.NRGBA{0, 0, 0, 128})
	if grey := FromImage(img, 1); grey.Pix[0] != 255 || grey.Pix[1] != 127 {
		t.Errorf("got %v", grey.Pix)
	}
}

// TestLuma compares with the standard library's conversion, which uses the same weights.
func TestLuma(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 2))
	for range 1000 {
		r, g, b := uint8(random.IntN(256)), uint8(random.IntN(256)), uint8(random.IntN(256))
		want := color.GrayModel.Convert(color.RGBA{r, g, b, 255}).(color.Gray).Y
		if got := luma(r, g, b); got > want+1 || want > got+1 {
			t.Fatalf("%d %d %d: %d, the library says %d", r, g, b, got, want)
		}
	}
}

// TestAt interpolates between pixel centers and holds the edge beyond them.
func TestAt(t *testing.T) {
	grey := &Grey{Width: 2, Height: 2, Pix: []uint8{0, 100, 200, 40}}
	for _, c := range []struct{ x, y, want float64 }{
		{0.5, 0.5, 0}, {1.5, 0.5, 100}, {1, 0.5, 50}, {0.5, 1, 100}, {1, 1, 85},
		{-9, -9, 0}, {9, 0.5, 100}, {9, 9, 40}, {math.NaN(), 0.5, 0}, {math.Inf(1), math.Inf(1), 40},
	} {
		if got := grey.At(c.x, c.y); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("at %v, %v: %v, wanted %v", c.x, c.y, got, c.want)
		}
	}
}

// TestHalvedAndDoubled keeps a plane's brightness where it was.
func TestHalvedAndDoubled(t *testing.T) {
	grey := &Grey{Width: 5, Height: 4, Pix: []uint8{
		10, 20, 30, 40, 99,
		30, 40, 50, 60, 99,
		0, 0, 255, 255, 99,
		0, 2, 255, 253, 99,
	}}
	half := grey.Halved(2)
	if half.Width != 2 || half.Height != 2 || string(half.Pix) != string([]uint8{25, 45, 1, 255}) {
		t.Errorf("halved: %+v", half)
	}
	double := grey.Doubled(2)
	for _, p := range []Point{{0.5, 0.5}, {2, 1}, {3.5, 3}} {
		if got, want := double.At(2*p.X, 2*p.Y), grey.At(p.X, p.Y); math.Abs(got-want) > 25 {
			t.Errorf("doubled at %v: %v, wanted about %v", p, got, want)
		}
	}
}

// TestDark tells ink from paper where the light falls off by half across the
// picture, and finds nothing on plain paper.
func TestDark(t *testing.T) {
	grey, ink := NewGrey(200, 120), func(x, y int) bool { return x/10%2 == 1 && y/10%2 == 1 && x < 100 }
	for i := range grey.Pix {
		x, y := i%200, i/200
		light := 1 - 0.5*float64(x)/200
		grey.Pix[i] = uint8(220 * light)
		if ink(x, y) {
			grey.Pix[i] = uint8(60 * light)
		}
	}
	bits := grey.Dark(grey.Halved(1), 3)
	for y := range 120 {
		for x := range 200 {
			if bits.Dark(x, y) != ink(x, y) {
				t.Fatalf("pixel %d, %d is dark: %v", x, y, bits.Dark(x, y))
			}
		}
	}
	if bits.Dark(-1, 0) || bits.Dark(0, 120) || bits.DarkAt(Point{math.NaN(), 1}) {
		t.Error("dark outside the picture")
	}
}
