package png

// profile is a stretch of a contour that only rises or only falls: where it crosses
// the middles of the dot rows. Outlines wind so that rising stretches bound the ink on
// the left.
type profile struct {
	rising bool
	start  int   // row of the first crossing; the rows then rise or fall
	xs     []int // crossings in 64ths of a dot
	next   *profile
	// the stretch sticks out beyond its last row by half a dot or more
	overTop, overBottom bool
}

// bottom is the lowest row that the profile crosses.
func (p *profile) bottom() int {
	if p.rising {
		return p.start
	}
	return p.start - len(p.xs) + 1
}

// top is the highest row that the profile crosses.
func (p *profile) top() int {
	if p.rising {
		return p.start + len(p.xs) - 1
	}
	return p.start
}

// at is where the profile crosses a row between bottom and top.
func (p *profile) at(row int) int {
	if p.rising {
		return p.xs[row-p.start]
	}
	return p.xs[p.start-row]
}

// tracer follows a contour and collects its profiles.
type tracer struct {
	done    []*profile
	current *profile
	last    point
	fresh   bool // the current profile has no start yet
	joint   bool // the last crossing is the end of a piece: the next one may repeat it
}

// trace gives the profiles of a contour, linked in a ring.
func trace(c contour) []*profile {
	t := tracer{last: c.start}
	for _, p := range c.pieces {
		if p.curve {
			t.curveTo(p.control, p.to)
		} else {
			t.lineTo(p.to)
		}
	}
	if t.last != c.start {
		t.lineTo(c.start)
	}
	t.close()
	for i, p := range t.done {
		p.next = t.done[(i+1)%len(t.done)]
	}
	return t.done
}

// close ends the last profile. Where it meets the first one in the middle of a row
// and goes on the same way, the crossing counts once.
func (t *tracer) close() {
	if t.current == nil {
		return
	}
	if first := t.first(); first != nil && first.rising == t.current.rising && frac(t.last.y) == 0 && len(t.current.xs) > 0 {
		t.current.xs = t.current.xs[:len(t.current.xs)-1]
	}
	t.end()
}

// first is the contour's first profile, if it has more than one.
func (t *tracer) first() *profile {
	if len(t.done) == 0 {
		return nil
	}
	return t.done[0]
}

// turn starts a new profile if the contour now rises instead of falling, or the other
// way round.
func (t *tracer) turn(rising bool) {
	if t.current != nil && t.current.rising == rising {
		return
	}
	t.end()
	t.current = &profile{rising: rising}
	if rising {
		t.current.overBottom = ceil(t.last.y)-t.last.y >= dot/2
	} else {
		t.current.overTop = t.last.y-floor(t.last.y) >= dot/2
	}
	t.fresh, t.joint = true, false
}

// end finishes the current profile; one that crosses no row is dropped.
func (t *tracer) end() {
	p := t.current
	if p == nil || len(p.xs) == 0 {
		return
	}
	if p.rising {
		p.overTop = t.last.y-floor(t.last.y) >= dot/2
	} else {
		p.overBottom = ceil(t.last.y)-t.last.y >= dot/2
	}
	t.done = append(t.done, p)
}

// begin notes the row of a profile's first crossing; rows of falling profiles are
// counted downwards while they are traced.
func (t *tracer) begin(row int) {
	if !t.fresh {
		return
	}
	t.fresh = false
	t.current.start = row
	if !t.current.rising {
		t.current.start = -row
	}
}

// cross adds a crossing.
func (t *tracer) cross(x int) { t.current.xs = append(t.current.xs, x) }

// uncross takes back a crossing that the next piece repeats.
func (t *tracer) uncross() {
	if t.joint {
		t.current.xs = t.current.xs[:len(t.current.xs)-1]
		t.joint = false
	}
}
