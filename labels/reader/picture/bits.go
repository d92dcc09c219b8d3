package picture

// Bits marks the dark pixels of a picture: 1 dark, 0 light, row by row.
type Bits struct {
	Width, Height int
	marks         []uint8
}

// NewBits makes an all-light plane of the given size in pixels.
func NewBits(width, height int) *Bits {
	return &Bits{Width: width, Height: height, marks: make([]uint8, width*height)}
}

// Row is the marks of row y.
func (b *Bits) Row(y int) []uint8 { return b.marks[y*b.Width : (y+1)*b.Width] }

// Dark tells whether the pixel at a column and row is dark; outside, it is light.
func (b *Bits) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < b.Width && y < b.Height && b.marks[y*b.Width+x] != 0
}

// DarkAt tells whether the pixel under a point is dark.
func (b *Bits) DarkAt(p Point) bool {
	return p.X >= 0 && p.Y >= 0 && b.Dark(int(p.X), int(p.Y))
}
