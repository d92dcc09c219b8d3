package inventory

import "fmt"

// Side is a foot's side, or empty where a piece has none yet.
type Side string

// The sides.
const (
	Left  Side = "left"
	Right Side = "right"
)

// Other is the opposite side; no side has none.
func (s Side) Other() Side {
	switch s {
	case Left:
		return Right
	case Right:
		return Left
	}
	return ""
}

// ParseSide reads "left", "right", "l" or "r".
func ParseSide(text string) (Side, error) {
	switch text {
	case "left", "l", "L", "Left", "LEFT":
		return Left, nil
	case "right", "r", "R", "Right", "RIGHT":
		return Right, nil
	}
	return "", fmt.Errorf("%q is no side; write left or right", Clip(text))
}

// Both holds something for the left, the right, or both sides.
type Both[T any] struct {
	Left  *T `json:"left,omitempty"`
	Right *T `json:"right,omitempty"`
}

// Of is what there is on a side, or nil.
func (b *Both[T]) Of(side Side) *T {
	switch side {
	case Left:
		return b.Left
	case Right:
		return b.Right
	}
	return nil
}

// Put sets a side.
func (b *Both[T]) Put(side Side, what *T) {
	switch side {
	case Left:
		b.Left = what
	case Right:
		b.Right = what
	}
}

// Each yields the sides that hold something, left first.
func (b *Both[T]) Each(yield func(Side, *T) bool) {
	for _, side := range Sides() {
		if what := b.Of(side); what != nil && !yield(side, what) {
			return
		}
	}
}

// Sides lists the sides in the order in which people name them.
func Sides() []Side { return []Side{Left, Right} }
