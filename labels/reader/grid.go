package reader

import (
	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
)

// leastModuleSize is the side, in pixels, below which modules can't be told apart.
const leastModuleSize = 1.5

// grid lays the modules of a symbol over a picture.
type grid struct {
	outline       picture.Quad // of the symbol without its quiet zone
	columns, rows int
}

// lens is the map from modules to pixels.
func (g grid) lens() picture.Homography {
	return picture.OntoQuad(float64(g.columns), float64(g.rows), g.outline)
}

// moduleSize is the mean side of a module in pixels.
func (g grid) moduleSize() float64 {
	across := g.outline[1].Minus(g.outline[0]).Plus(g.outline[2].Minus(g.outline[3])).Length() / 2
	down := g.outline[3].Minus(g.outline[0]).Plus(g.outline[2].Minus(g.outline[1])).Length() / 2
	return (across/float64(g.columns) + down/float64(g.rows)) / 2
}

// match says how well the modules that are known stand out where the grid puts them.
type match struct {
	contrast float64 // mean brightness of the light ones less that of the dark ones
	share    float64 // of all, on the right side of halfway between the two means
	least    float64 // the same, of the worst of: dark, light inside, quiet zone
}

// match looks at the known modules, one point each.
func (g grid) match(grey *picture.Grey, known []modules.Known) match {
	lens := g.lens()
	values := make([]float64, len(known))
	var dark, light, darks float64
	for i, k := range known {
		p := lens.At(float64(k.Column)+0.5, float64(k.Row)+0.5)
		values[i] = grey.At(p.X, p.Y)
		if k.Dark {
			dark += values[i]
			darks++
		} else {
			light += values[i]
		}
	}
	dark, light = dark/darks, light/(float64(len(known))-darks)
	m := match{contrast: light - dark}
	m.share, m.least = g.shares(known, values, (dark+light)/2)
	return m
}

// shares counts the known modules that lie on the right side of the threshold.
func (g grid) shares(known []modules.Known, values []float64, threshold float64) (all, least float64) {
	var right, total [3]float64
	for i, k := range known {
		part := 0
		switch {
		case k.Column < 0 || k.Row < 0 || k.Column == g.columns || k.Row == g.rows:
			part = 1
		case k.Dark:
			part = 2
		}
		total[part]++
		if (values[i] < threshold) == k.Dark {
			right[part]++
		}
	}
	all = (right[0] + right[1] + right[2]) / float64(len(known))
	return all, min(right[0]/total[0], right[1]/total[1], right[2]/total[2])
}

// contrast is match without the share, for the many looks that refining takes.
func (g grid) contrast(grey *picture.Grey, known []modules.Known) float64 {
	lens := g.lens()
	var dark, light, darks float64
	for _, k := range known {
		p := lens.At(float64(k.Column)+0.5, float64(k.Row)+0.5)
		value := grey.At(p.X, p.Y)
		if k.Dark {
			dark += value
			darks++
		} else {
			light += value
		}
	}
	return light/(float64(len(known))-darks) - dark/darks
}

// bestShift tries shifts of up to reach modules each way in steps of step modules,
// and gives the shifted grid in which the known modules stand out best.
func (g grid) bestShift(grey *picture.Grey, known []modules.Known, reach, step float64, shifted func(picture.Point) grid) grid {
	best, contrast, size := g, g.contrast(grey, known), g.moduleSize()
	for dy := -reach; dy <= reach; dy += step {
		for dx := -reach; dx <= reach; dx += step {
			moved := shifted(picture.Point{X: dx * size, Y: dy * size})
			if c := moved.contrast(grey, known); c > contrast && moved.outline.Convex() {
				best, contrast = moved, c
			}
		}
	}
	return best
}

// refined moves the corners, in ever smaller steps, to where the known modules
// stand out best.
func (g grid) refined(grey *picture.Grey, known []modules.Known) grid {
	best := g.contrast(grey, known)
	for step := g.moduleSize() / 2; step > g.moduleSize()/20; {
		moved, contrast := g.bestMove(grey, known, step, best)
		if contrast <= best {
			step /= 2
			continue
		}
		g, best = moved, contrast
	}
	return g
}

// bestMove tries every corner, and the whole grid, one step each way.
func (g grid) bestMove(grey *picture.Grey, known []modules.Known, step, best float64) (grid, float64) {
	result := g
	for _, way := range []picture.Point{{X: step}, {X: -step}, {Y: step}, {Y: -step}} {
		all := g
		for corner := range g.outline {
			all.outline[corner] = all.outline[corner].Plus(way)
			one := g
			one.outline[corner] = one.outline[corner].Plus(way)
			if c := one.contrast(grey, known); c > best && one.outline.Convex() {
				result, best = one, c
			}
		}
		if c := all.contrast(grey, known); c > best {
			result, best = all, c
		}
	}
	return result, best
}
