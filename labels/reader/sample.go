package reader

import (
	"slices"

	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
)

// sampleReach is how far from a module's center it is looked at, in modules.
const sampleReach = 0.2

// samples is the brightness of each module of a grid, row by row.
type samples struct {
	columns, rows int
	values        []float64
}

// sample looks at five points of each module.
func (g grid) sample(grey *picture.Grey) samples {
	lens := g.lens()
	s := samples{g.columns, g.rows, make([]float64, 0, g.columns*g.rows)}
	for row := range g.rows {
		for column := range g.columns {
			u, v := float64(column)+0.5, float64(row)+0.5
			sum := 0.0
			for _, d := range [5][2]float64{{0, 0}, {sampleReach, 0}, {-sampleReach, 0}, {0, sampleReach}, {0, -sampleReach}} {
				p := lens.At(u+d[0], v+d[1])
				sum += grey.At(p.X, p.Y)
			}
			s.values = append(s.values, sum/5)
		}
	}
	return s
}

// at is the value of a module; beyond the edge, that of the nearest one.
func (s samples) at(column, row int) float64 {
	column, row = min(max(column, 0), s.columns-1), min(max(row, 0), s.rows-1)
	return s.values[row*s.columns+column]
}

// sharpened undoes some blur: each module is moved away from the mean of its four
// neighbours.
func (s samples) sharpened(strength float64) samples {
	out := samples{s.columns, s.rows, make([]float64, len(s.values))}
	for i, v := range s.values {
		column, row := i%s.columns, i/s.columns
		around := s.at(column-1, row) + s.at(column+1, row) + s.at(column, row-1) + s.at(column, row+1)
		out.values[i] = v + strength*(v-around/4)
	}
	return out
}

// windowReach is how many modules each way the local threshold looks at: far
// enough to hold both dark and light ones.
const windowReach = 3

// local calls dark what is nearer to the darkest than to the lightest around it.
func (s samples) local() *modules.Matrix {
	return s.compare(func(column, row int) float64 {
		darkest, lightest := s.at(column, row), s.at(column, row)
		for y := max(row-windowReach, 0); y <= min(row+windowReach, s.rows-1); y++ {
			for _, v := range s.values[y*s.columns+max(column-windowReach, 0) : y*s.columns+min(column+windowReach+1, s.columns)] {
				darkest, lightest = min(darkest, v), max(lightest, v)
			}
		}
		return (darkest + lightest) / 2
	})
}

// global calls dark what lies below one threshold, halfway between the means of
// the darker and the brighter modules that it parts (T. W. Ridler, S. Calvard, 1978).
func (s samples) global() *modules.Matrix {
	sorted := slices.Sorted(slices.Values(s.values))
	threshold := (sorted[0] + sorted[len(sorted)-1]) / 2
	for range 10 {
		split, _ := slices.BinarySearch(sorted, threshold)
		split = min(max(split, 1), len(sorted)-1)
		threshold = (mean(sorted[:split]) + mean(sorted[split:])) / 2
	}
	return s.compare(func(int, int) float64 { return threshold })
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// compare makes modules of values and thresholds.
func (s samples) compare(threshold func(column, row int) float64) *modules.Matrix {
	m := modules.NewMatrix(s.columns, s.rows)
	for i, v := range s.values {
		column, row := i%s.columns, i/s.columns
		m.Set(modules.Cell{Column: column, Row: row}, v < threshold(column, row))
	}
	return m
}

// readings are the ways of telling dark from light that are tried, likeliest first.
func (s samples) readings() []*modules.Matrix {
	sharp := s.sharpened(0.5)
	return []*modules.Matrix{s.local(), sharp.local(), s.global(), sharp.global()}
}
