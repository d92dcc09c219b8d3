package picture

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/makiuchi-d/gozxing/common"
)

// TestOntoQuad compares with the library's transform, which was written elsewhere.
func TestOntoQuad(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		q := Quad{{0, 0}, {100, 0}, {100, 80}, {0, 80}}
		for i := range q {
			q[i] = q[i].Plus(Point{30 * random.Float64(), 30 * random.Float64()})
		}
		lens := OntoQuad(12, 8, q)
		want := common.PerspectiveTransform_QuadrilateralToQuadrilateral(0, 0, 12, 0, 12, 8, 0, 8,
			q[0].X, q[0].Y, q[1].X, q[1].Y, q[2].X, q[2].Y, q[3].X, q[3].Y)
		at := []float64{12 * random.Float64(), 8 * random.Float64()}
		got := lens.At(at[0], at[1])
		want.TransformPoints(at)
		if got.Minus(Point{at[0], at[1]}).Length() > 1e-9 {
			t.Fatalf("%v, the library says %v", got, at)
		}
	}
}

// TestHull finds an outline that holds every pixel, turns only clockwise, and is
// that of the square for a square.
func TestHull(t *testing.T) {
	for seed := range uint64(20) {
		for _, r := range randomBits(seed, 40, 40, 0.55).Runs(1).Regions(5, 40) {
			hull := r.Hull()
			for i, p := range hull {
				next, after := hull[(i+1)%len(hull)], hull[(i+2)%len(hull)]
				if next.Minus(p).Cross(after.Minus(next)) <= 0 {
					t.Fatalf("%v does not turn clockwise at %v", hull, next)
				}
				for _, run := range r.Runs {
					if next.Minus(p).Cross(Point{float64(run.From), float64(run.Y)}.Minus(p)) < 0 {
						t.Fatalf("%v leaves out %v", hull, run)
					}
				}
			}
		}
	}
	square := NewBits(20, 20)
	for y := 4; y < 10; y++ {
		for x := 6; x < 12; x++ {
			square.Row(y)[x] = 1
		}
	}
	hull := square.Runs(1).Regions(1, 20)[0].Hull()
	if len(hull) != 4 || Rectangle(hull).Center() != (Point{9, 7}) {
		t.Errorf("a square has the outline %v", hull)
	}
}

// TestSimplified drops the corners that hardly stand out and keeps the others.
func TestSimplified(t *testing.T) {
	outline := []Point{{0, 0}, {50, -0.5}, {100, 0}, {100.5, 40}, {100, 80}, {0, 80}, {-0.4, 30}}
	got := Simplified(outline, 1)
	if len(got) != 4 {
		t.Fatalf("got %v", got)
	}
	for _, want := range []Point{{0, 0}, {100, 0}, {100, 80}, {0, 80}} {
		found := false
		for _, p := range got {
			found = found || p == want
		}
		if !found {
			t.Errorf("%v was dropped: %v", want, got)
		}
	}
	if got := Simplified(outline[:3], 5); len(got) != 3 {
		t.Errorf("a triangle became %v", got)
	}
}

// TestRectangle finds a turned rectangle again, its corners clockwise.
func TestRectangle(t *testing.T) {
	for _, angle := range []float64{0, 0.3, 1, 2, 3} {
		sin, cos := math.Sincos(angle)
		turn := func(x, y float64) Point { return Point{50 + x*cos - y*sin, 60 + x*sin + y*cos} }
		q := Rectangle([]Point{turn(-20, -8), turn(0, -8), turn(20, -8), turn(20, 8), turn(-20, 8)})
		long, short := q[1].Minus(q[0]).Length(), q[3].Minus(q[0]).Length()
		if math.Abs(max(long, short)-40) > 1e-9 || math.Abs(min(long, short)-16) > 1e-9 {
			t.Errorf("turned by %v: %v × %v", angle, long, short)
		}
		if q.Center().Minus(Point{50, 60}).Length() > 1e-9 || !q.Convex() {
			t.Errorf("turned by %v: %v", angle, q)
		}
	}
	if flat := Rectangle(nil); flat != (Quad{}) {
		t.Errorf("nothing has the rectangle %v", flat)
	}
}

// TestQuad tells inside from outside, and a convex quad from a folded one.
func TestQuad(t *testing.T) {
	q := Quad{{0, 0}, {10, 1}, {9, 8}, {1, 7}}
	if !q.Convex() || !q.Contains(q.Center()) || q.Contains(Point{0, 7}) {
		t.Error("a convex quad is taken for something else")
	}
	folded, backward := Quad{{0, 0}, {10, 0}, {0, 10}, {10, 10}}, Quad{q[3], q[2], q[1], q[0]}
	if folded.Convex() || backward.Convex() || (Quad{}).Convex() {
		t.Error("a folded, backward or empty quad is taken for convex")
	}
	if got := q.Times(2).Center(); got != q.Center().Times(2) {
		t.Errorf("twice as large, the center is %v", got)
	}
}
