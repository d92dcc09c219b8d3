package reader

import (
	"cmp"
	"math"
	"slices"

	"steeltally/labels/reader/picture"
)

const (
	leastHitShare = 0.7  // rows that find a pattern, for a module's height of three
	mostFinders   = 1500 // that are looked at in one picture
)

// finder is the center of what looks like a finder pattern of a QR Code symbol.
type finder struct {
	center picture.Point
	module float64 // pixels, along rows
	hits   int     // rows that crossed it
}

// findFinders looks along rows for dark and light in the ratio 1:1:3:1:1, which a
// line through the center of the pattern shows at any angle (ISO/IEC 18004, 6.3.3.1),
// and crosses each find with its column.
func findFinders(bits *picture.Bits, runs *picture.Runs) []finder {
	found := finderSet{near: map[[2]int][]int{}}
	for y := range runs.Height() {
		row := runs.Row(y)
		for i := 2; i < len(row); i++ {
			f, ok := crossing(bits, row[i-2], row[i-1], row[i])
			if ok {
				found.add(f)
			}
		}
	}
	return steadiest(found.all)
}

// steadiest keeps the finder patterns that enough rows crossed for their size, and
// of too many, as noise makes them, those that most rows crossed.
func steadiest(found []finder) []finder {
	found = slices.DeleteFunc(found, func(f finder) bool { return float64(f.hits) < max(2, leastHitShare*f.module) })
	slices.SortStableFunc(found, func(a, b finder) int {
		return cmp.Compare(float64(b.hits)/b.module, float64(a.hits)/a.module)
	})
	return found[:min(len(found), mostFinders)]
}

// crossing checks three neighbouring dark runs, and the column through the middle one.
func crossing(bits *picture.Bits, a, b, c picture.Run) (finder, bool) {
	widths := [5]float64{float64(a.Length()), float64(b.From - a.To), float64(b.Length()), float64(c.From - b.To), float64(c.Length())}
	total, ok := finderRatio(widths)
	if !ok {
		return finder{}, false
	}
	x := float64(b.From+b.To) / 2
	y, height, ok := columnCrossing(bits, int(x), int(b.Y), total)
	if !ok || height > 2*total || total > 2*height {
		return finder{}, false
	}
	return finder{center: picture.Point{X: x, Y: y}, module: (total + height) / 14, hits: 1}, true
}

// finderRatio tells whether five widths are near 1:1:3:1:1, and their sum.
func finderRatio(widths [5]float64) (total float64, ok bool) {
	for _, w := range widths {
		total += w
	}
	module := total / 7
	if module < leastModuleSize {
		return total, false
	}
	slack := module*0.5 + 0.35 // of a pixel, for the rounding of each width
	for i, w := range widths {
		wanted, most := module, slack
		if i == 2 {
			wanted, most = 3*module, 2*slack
		}
		if w < 1 || math.Abs(w-wanted) > most {
			return total, false
		}
	}
	return total, true
}

// columnCrossing measures the pattern up and down from a point in its middle, and
// gives the row of its center and its whole height.
func columnCrossing(bits *picture.Bits, x, y int, reach float64) (center, height float64, ok bool) {
	most := int(2 * reach)
	up, down := armWidths(bits, x, y, -1, most), armWidths(bits, x, y, +1, most)
	middle := float64(up[0] + down[0] - 1)
	widths := [5]float64{float64(up[2]), float64(up[1]), middle, float64(down[1]), float64(down[2])}
	height, ok = finderRatio(widths)
	center = float64(y) + float64(down[0]-up[0]+1)/2
	return center, height, ok
}

// armWidths counts dark, light and dark pixels from a point along its column.
func armWidths(bits *picture.Bits, x, y, step, most int) [3]int {
	var widths [3]int
	for part := range widths {
		for dark := part != 1; bits.Dark(x, y) == dark && widths[part] <= most; y += step {
			if y < 0 || y >= bits.Height {
				break
			}
			widths[part]++
		}
	}
	return widths
}

// finderSet gathers finds; near lists them by squares of finderSquare pixels.
type finderSet struct {
	all  []finder
	near map[[2]int][]int
}

// finderSquare is more than any two finds of one pattern lie apart.
const finderSquare = 32

// add joins a find with an earlier one at the same place.
func (s *finderSet) add(f finder) {
	column, row := int(f.center.X)/finderSquare, int(f.center.Y)/finderSquare
	for y := row - 1; y <= row+1; y++ {
		for x := column - 1; x <= column+1; x++ {
			for _, i := range s.near[[2]int{x, y}] {
				if s.all[i].join(f) {
					return
				}
			}
		}
	}
	s.near[[2]int{column, row}] = append(s.near[[2]int{column, row}], len(s.all))
	s.all = append(s.all, f)
}

// join takes another find of the same pattern into the mean; false for a find elsewhere.
func (f *finder) join(other finder) bool {
	if other.center.Minus(f.center).Length() > 1.5*f.module {
		return false
	}
	n := float64(f.hits)
	f.center = f.center.Times(n).Plus(other.center).Times(1 / (n + 1))
	f.module = (f.module*n + other.module) / (n + 1)
	f.hits++
	return true
}
