package geometry

import "testing"

func TestRect(t *testing.T) {
	r := Rect{X: 10, Y: 20, Width: 30, Height: 40}
	if r.Right() != 40 || r.Bottom() != 60 {
		t.Errorf("ends at %d, %d; want 40, 60", r.Right(), r.Bottom())
	}
	if got := r.Moved(-3, 4); got != (Rect{7, 24, 30, 40}) {
		t.Errorf("moved: %+v", got)
	}
	if got := r.Inset(5); got != (Rect{15, 25, 20, 30}) {
		t.Errorf("inset: %+v", got)
	}
}

func TestRectContains(t *testing.T) {
	r := Rect{X: 10, Y: 20, Width: 30, Height: 40}
	for _, inside := range []Rect{r, r.Inset(1), {10, 20, 0, 0}, {40, 60, 0, 0}} {
		if !r.Contains(inside) {
			t.Errorf("%+v is not in %+v", inside, r)
		}
	}
	for _, outside := range []Rect{r.Moved(1, 0), r.Moved(0, 1), r.Moved(-1, 0), r.Moved(0, -1), r.Inset(-1)} {
		if r.Contains(outside) {
			t.Errorf("%+v is in %+v", outside, r)
		}
	}
}
