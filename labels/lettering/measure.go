package lettering

// Extent is the measure of a line of text in thousandths of an em. Left and Right
// bound the ink from the pen's start; Above and Below from the baseline.
type Extent struct {
	Advance      int
	Left, Right  int
	Above, Below int
}

// Width is the width of the ink.
func (e Extent) Width() int { return e.Right - e.Left }

// Measure measures a clean line of text.
func (f *Face) Measure(line string) Extent {
	var e Extent
	first := true
	for _, r := range line {
		g := f.glyphs[r]
		if g.Right > g.Left+1 {
			if first {
				e.Left, e.Above, e.Below, first = e.Advance+g.Left, g.Above, g.Below, false
			}
			e.Left = min(e.Left, e.Advance+g.Left)
			e.Right = max(e.Right, e.Advance+g.Right)
			e.Above = max(e.Above, g.Above)
			e.Below = max(e.Below, g.Below)
		}
		e.Advance += g.Advance
	}
	return e
}
