package reader

import (
	"cmp"
	"math"
	"slices"

	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// corner is three finder patterns that may belong to one QR Code symbol.
type corner struct {
	finders [3]finder
	strain  float64 // how far from a square they are, 0 perfect
}

// Where each finder pattern of a corner lies in the symbol.
const (
	topLeft = iota
	topRight
	bottomLeft
)

const (
	mostStrain     = 1.0  // a square seen at 45° keeps well below
	mostNeighbours = 12   // of a finder pattern that are worth a look
	mostCorners    = 3000 // that are looked at in one picture
)

// findCorners puts finder patterns together in threes, likeliest first.
func findCorners(finders []finder) []corner {
	var corners []corner
	for i, f := range finders {
		near := neighbours(finders, i)
		for a := range near {
			for b := range near {
				c := corner{finders: [3]finder{f, near[a], near[b]}}
				if a != b && c.measure() {
					corners = append(corners, c)
				}
			}
		}
	}
	slices.SortStableFunc(corners, func(a, b corner) int { return cmp.Compare(a.strain, b.strain) })
	return corners[:min(len(corners), mostCorners)]
}

// neighbours gives the finder patterns of like size that are near enough to be in
// the same symbol, nearest first.
func neighbours(finders []finder, of int) []finder {
	center, module := finders[of].center, finders[of].module
	distance := func(f finder) float64 { return f.center.Minus(center).Length() }
	reach := modules.MostQRSide * 1.2 * module
	var near []finder
	for i, f := range finders {
		if i == of || f.module > 1.8*module || module > 1.8*f.module || math.Abs(f.center.X-center.X) > reach || math.Abs(f.center.Y-center.Y) > reach {
			continue
		}
		if d := distance(f); d > 8*module && d < reach {
			near = append(near, f)
		}
	}
	slices.SortFunc(near, func(a, b finder) int { return cmp.Compare(distance(a), distance(b)) })
	return near[:min(len(near), mostNeighbours)]
}

// edges is the way from the top left pattern to each of the others.
func (c corner) edges() (across, down picture.Point) {
	from := c.finders[topLeft].center
	return c.finders[topRight].center.Minus(from), c.finders[bottomLeft].center.Minus(from)
}

// spot is the middle of the symbol.
func (c corner) spot() picture.Point {
	return c.finders[topRight].center.Plus(c.finders[bottomLeft].center).Times(0.5)
}

// measure sets the strain; false where the three can't be a square's corners, or
// not in this order.
func (c *corner) measure() bool {
	across, down := c.edges()
	if across.Cross(down) <= 0 {
		return false
	}
	ratio := math.Abs(math.Log(across.Length() / down.Length()))
	tilt := math.Abs(across.Dot(down)) / (across.Length() * down.Length())
	least := min(c.finders[0].module, c.finders[1].module, c.finders[2].module)
	most := max(c.finders[0].module, c.finders[1].module, c.finders[2].module)
	c.strain = ratio + tilt + math.Log(most/least)
	return c.strain < mostStrain
}

// onSide is the grid of a symbol with that many modules a side whose finder
// patterns have these centers, as if seen straight on.
func (c corner) onSide(side int) grid {
	step := 1 / float64(side-7)
	across, down := c.edges()
	at := func(column, row float64) picture.Point {
		return c.finders[topLeft].center.Plus(across.Times((column - 3.5) * step)).Plus(down.Times((row - 3.5) * step))
	}
	n := float64(side)
	return grid{outline: picture.Quad{at(0, 0), at(n, 0), at(n, n), at(0, n)}, columns: side, rows: side}
}

// sides gives the numbers of modules a side that fit the distance of the patterns.
// Along a row a module measures up to √2 of its side, by the turn of the symbol.
func (c corner) sides() []int {
	module := (c.finders[0].module + c.finders[1].module + c.finders[2].module) / 3
	across, down := c.edges()
	length := (across.Length() + down.Length()) / 2
	turned := across.Times(1 / across.Length())
	module *= max(math.Abs(turned.X), math.Abs(turned.Y))
	var sides []int
	for side := modules.LeastQRSide; side <= modules.MostQRSide; side += modules.QRSideStep {
		if estimate := length/module + 7; math.Abs(float64(side)-estimate) < 0.2*estimate {
			sides = append(sides, side)
		}
	}
	return sides
}

// candidates gives the symbols that the three patterns may belong to.
func (c corner) candidates(v view) []candidate {
	var found []candidate
	for _, side := range c.sides() {
		one := candidate{grid: c.onSide(side), symbology: symbol.QR, known: v.known.qr[side]}
		if one.promising(v.grey, leastShare) {
			one.grid = one.grid.aligned(v.grey, v.known.alignment[side])
			found = append(found, one)
		}
	}
	return found
}

// alignReach is how many modules the fourth corner may lie away from where it
// would be straight on; alignStep is how finely it is looked for.
const (
	alignReach = 3.0
	alignStep  = 0.5
)

// aligned moves the fourth corner to where the alignment pattern, if the symbol is
// large enough to have one, stands out best.
func (g grid) aligned(grey *picture.Grey, pattern []modules.Known) grid {
	if len(pattern) == 0 {
		return g
	}
	return g.bestShift(grey, pattern, alignReach, alignStep, func(shift picture.Point) grid {
		moved := g
		moved.outline[2] = g.outline[2].Plus(shift)
		return moved
	})
}
