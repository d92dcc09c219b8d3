package geometry

// Rect is a rectangle in whole printer dots; X grows to the right, Y downwards.
type Rect struct {
	X, Y, Width, Height Dot
}

// Right is the first column of dots outside the rectangle.
func (r Rect) Right() Dot { return r.X + r.Width }

// Bottom is the first row of dots outside the rectangle.
func (r Rect) Bottom() Dot { return r.Y + r.Height }

// Contains tells whether other lies wholly inside r.
func (r Rect) Contains(other Rect) bool {
	return other.X >= r.X && other.Y >= r.Y && other.Right() <= r.Right() && other.Bottom() <= r.Bottom()
}

// Moved is the rectangle shifted by dx and dy.
func (r Rect) Moved(dx, dy Dot) Rect {
	return Rect{X: r.X + dx, Y: r.Y + dy, Width: r.Width, Height: r.Height}
}

// Inset is the rectangle made smaller by margin on each side.
func (r Rect) Inset(margin Dot) Rect {
	return Rect{X: r.X + margin, Y: r.Y + margin, Width: r.Width - 2*margin, Height: r.Height - 2*margin}
}
