package png

// curveStep is the height below which a part of a curve counts as straight.
const curveStep = dot / 2

// lineTo follows a line.
func (t *tracer) lineTo(to point) {
	switch {
	case to.y > t.last.y:
		t.turn(true)
		t.rise(t.last, to)
	case to.y < t.last.y:
		t.turn(false)
		t.rise(mirrored(t.last), mirrored(to))
	}
	t.last = to
}

// mirrored is a point with its height turned round: a falling piece is traced as a
// rising one.
func mirrored(p point) point { return point{p.x, -p.y} }

// rise adds the crossings of a rising line.
func (t *tracer) rise(from, to point) {
	width, height := to.x-from.x, to.y-from.y
	first, last := ceil(from.y)/dot, floor(to.y)/dot
	x := from.x
	if f := frac(from.y); f > 0 {
		if first > last {
			return
		}
		x += share(width, dot-f, height)
	} else {
		t.uncross()
	}
	t.joint = frac(to.y) == 0
	t.begin(first)
	step, sign := width, 1
	if width < 0 {
		step, sign = -width, -1
	}
	for i := range last - first + 1 {
		t.cross(x + sign*(i*dot*step/height))
	}
}

// curveTo follows a quadratic curve, in parts that only rise or only fall.
func (t *tracer) curveTo(control, to point) {
	arcs := [][3]point{{t.last, control, to}}
	for len(arcs) > 0 {
		arc := arcs[len(arcs)-1]
		arcs = arcs[:len(arcs)-1]
		low, high := min(arc[0].y, arc[2].y), max(arc[0].y, arc[2].y)
		switch {
		case arc[1].y < low || arc[1].y > high:
			first, second := split(arc)
			arcs = append(arcs, second, first)
		case arc[0].y < arc[2].y:
			t.turn(true)
			t.riseCurve(arc)
			t.last = arc[2]
		case arc[0].y > arc[2].y:
			t.turn(false)
			t.riseCurve([3]point{mirrored(arc[0]), mirrored(arc[1]), mirrored(arc[2])})
			t.last = arc[2]
		}
	}
	t.last = to
}

// split halves a curve.
func split(arc [3]point) (first, second [3]point) {
	half := func(a, b, c int) (int, int, int) { return (a + b) >> 1, (a + 2*b + c) >> 2, (b + c) >> 1 }
	x1, x2, x3 := half(arc[0].x, arc[1].x, arc[2].x)
	y1, y2, y3 := half(arc[0].y, arc[1].y, arc[2].y)
	return [3]point{arc[0], {x1, y1}, {x2, y2}}, [3]point{{x2, y2}, {x3, y3}, arc[2]}
}

// riseCurve adds the crossings of a rising curve, halving it until its parts are low.
func (t *tracer) riseCurve(arc [3]point) {
	row, end := ceil(arc[0].y), floor(arc[2].y)
	first := row / dot
	if frac(arc[0].y) == 0 {
		t.uncross()
		t.begin(first)
		t.cross(arc[0].x)
		row += dot
	}
	if t.fresh && end >= row {
		t.begin(first)
	}
	arcs := [][3]point{arc}
	for len(arcs) > 0 && row <= end {
		a := arcs[len(arcs)-1]
		arcs = arcs[:len(arcs)-1]
		t.joint = false
		switch from, to := a[0], a[2]; {
		case to.y > row && to.y-from.y >= curveStep:
			one, two := split(a)
			arcs = append(arcs, two, one)
		case to.y > row:
			t.cross(from.x + (to.x-from.x)*(row-from.y)/(to.y-from.y))
			row += dot
		case to.y == row:
			t.joint = true
			t.cross(to.x)
			row += dot
		}
	}
}
