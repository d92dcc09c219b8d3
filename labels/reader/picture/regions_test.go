package picture

import (
	"math/rand/v2"
	"testing"
)

// randomBits is a picture of which about a share is dark.
func randomBits(seed uint64, width, height int, share float64) *Bits {
	random := rand.New(rand.NewPCG(seed, 1))
	bits := NewBits(width, height)
	for i := range bits.marks {
		if random.Float64() < share {
			bits.marks[i] = 1
		}
	}
	return bits
}

// TestRuns puts a picture together again from its runs.
func TestRuns(t *testing.T) {
	bits := randomBits(1, 61, 40, 0.5)
	again := NewBits(61, 40)
	runs := bits.Runs(3)
	for y := range runs.Height() {
		for _, run := range runs.Row(y) {
			for x := run.From; x < run.To; x++ {
				again.Row(int(run.Y))[x] = 1
			}
		}
	}
	if string(again.marks) != string(bits.marks) {
		t.Error("the runs don't make the picture")
	}
}

// TestRegions compares with filling each dark area, pixel by pixel.
func TestRegions(t *testing.T) {
	for seed := range uint64(20) {
		bits := randomBits(seed, 70, 50, 0.35+0.02*float64(seed))
		want := floods(bits)
		regions := bits.Runs(2).Regions(1, 70)
		if len(regions) != len(want) {
			t.Fatalf("%d regions, flooding finds %d", len(regions), len(want))
		}
		for i, r := range regions {
			if r.Pixels != want[i].pixels || r.Width != want[i].width() || r.Height != want[i].height() || runPixels(r) != r.Pixels {
				t.Fatalf("region %d: %d pixels in %d × %d, flooding finds %+v", i, r.Pixels, r.Width, r.Height, want[i])
			}
		}
	}
}

func runPixels(r Region) (pixels int) {
	for _, run := range r.Runs {
		pixels += run.Length()
	}
	return pixels
}

// floods fills the dark areas in the order of their first pixel.
func floods(bits *Bits) []box {
	seen := NewBits(bits.Width, bits.Height)
	var boxes []box
	for y := range bits.Height {
		for x := range bits.Width {
			if bits.Dark(x, y) && !seen.Dark(x, y) {
				b := box{left: int32(x), right: int32(x + 1), top: int32(y), bottom: int32(y + 1)}
				flood(bits, seen, x, y, &b)
				boxes = append(boxes, b)
			}
		}
	}
	return boxes
}

func flood(bits, seen *Bits, x, y int, b *box) {
	if !bits.Dark(x, y) || seen.Dark(x, y) {
		return
	}
	seen.Row(y)[x] = 1
	b.pixels++
	b.left, b.right = min(b.left, int32(x)), max(b.right, int32(x+1))
	b.top, b.bottom = min(b.top, int32(y)), max(b.bottom, int32(y+1))
	for _, step := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		flood(bits, seen, x+step[0], y+step[1], b)
	}
}

// TestRegionSides leaves out what is too small or too large.
func TestRegionSides(t *testing.T) {
	bits := NewBits(40, 40)
	for i := range 5 {
		bits.Row(2)[2+i] = 1
	}
	for i := range 30 {
		bits.Row(5 + i)[20] = 1
	}
	if regions := bits.Runs(1).Regions(6, 40); len(regions) != 1 || regions[0].Height != 30 {
		t.Errorf("got %+v", regions)
	}
	if regions := bits.Runs(1).Regions(1, 29); len(regions) != 1 || regions[0].Width != 5 {
		t.Errorf("got %+v", regions)
	}
}

// TestClosed compares with looking each way from each light pixel.
func TestClosed(t *testing.T) {
	const gap = 3
	bits := randomBits(7, 60, 45, 0.15)
	closed := bits.Closed(gap, 3)
	between := func(x, y, dx, dy int) bool {
		before, after := 0, 0
		for before = 1; before <= gap && !bits.Dark(x-before*dx, y-before*dy); before++ {
		}
		for after = 1; after <= gap && !bits.Dark(x+after*dx, y+after*dy); after++ {
		}
		return before+after-1 <= gap
	}
	for y := range 45 {
		for x := range 60 {
			want := bits.Dark(x, y) || between(x, y, 1, 0) || between(x, y, 0, 1)
			if closed.Dark(x, y) != want {
				t.Fatalf("pixel %d, %d is dark: %v", x, y, !want)
			}
		}
	}
}
