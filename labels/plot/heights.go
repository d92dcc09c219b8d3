package plot

import (
	"math"
	"slices"

	"steeltally/labels/drawing"
)

// Worn is one runner's heights after so many passes.
type Worn struct {
	Passes, Heights []float64
}

// Ahead is a forecast: from the height now after so many passes, the passes until the
// change height, a middle guess and the span of four cases in five.
type Ahead struct {
	LastPasses, Last  float64 // of the height that was measured last
	Passes, Height    float64
	Low, Middle, High float64
}

// PlayerHeights is a player's steel: earlier runners in grey, those that are on in
// black with what is to be expected of them.
type PlayerHeights struct {
	Title       string
	Earlier     []Worn
	Left, Right []Worn  // a part more after each time that nobody counted the passes
	Change      float64 // change height; 0: not known
	Ahead       *Ahead
}

// Chart draws height against passes.
func (h PlayerHeights) Chart() Chart {
	passes, heights := h.extent()
	c := Chart{Title: h.Title, Y: Numbers("height, mm", heights...), X: Numbers(h.passesTitle(), passes...), Right: changeRoom, Empty: "no heights yet"}
	if len(heights) == 0 {
		return c
	}
	for _, worn := range h.Earlier {
		c.Layer = append(c.Layer, Curve{X: worn.Passes, Y: worn.Heights, Grey: drawing.Light})
	}
	under, over := h.ahead()
	c.Layer = append(c.Layer, under...)
	if h.Change > 0 {
		c.Layer = append(c.Layer, Rule{At: h.Change, Name: "change"})
	}
	c.Layer = append(c.Layer, over...)
	leftName, rightName := h.names()
	c.addSide(h.Left, leftName, false)
	c.addSide(h.Right, rightName, true)
	return c
}

// passesTitle says where some passes were not counted, which leaves a gap.
func (h PlayerHeights) passesTitle() string {
	if len(h.Left) > 1 || len(h.Right) > 1 {
		return "passes counted; a gap where nobody did"
	}
	return "passes"
}

// addSide draws the parts of one side, the last with its name.
func (c *Chart) addSide(parts []Worn, name string, hollow bool) {
	for i, part := range parts {
		curve := Curve{X: part.Passes, Y: part.Heights, Bold: true, Dots: true, Hollow: hollow}
		if i == len(parts)-1 {
			curve.Name = name
		}
		if len(part.Passes) > 0 {
			c.Layer = append(c.Layer, curve)
		}
	}
}

// ahead is what is to be expected: a band with a dashed line in it, and the span of
// passes on the line of change. Steel that should be too low by now has no more than the
// dashed line to where it should be.
func (h PlayerHeights) ahead() (under, over []Layer) {
	a := h.Ahead
	switch {
	case a == nil || h.Change <= 0:
		return nil, nil
	case a.Height <= h.Change:
		return []Layer{Curve{X: []float64{a.LastPasses, a.Passes}, Y: []float64{a.Last, a.Height}, Dashed: true}}, nil
	}
	under = []Layer{
		Band{X: []float64{a.Passes, a.Passes + a.Low, a.Passes + a.High}, Low: []float64{a.Height, h.Change, h.Change},
			High: []float64{a.Height, a.upper(h.Change), h.Change}, Grey: drawing.Pale},
		Curve{X: []float64{a.LastPasses, a.Passes, a.Passes + a.Middle}, Y: []float64{a.Last, a.Height, h.Change}, Dashed: true},
	}
	return under, []Layer{Curve{X: []float64{a.Passes + a.Low, a.Passes + a.High}, Y: []float64{h.Change, h.Change}, Bold: true}}
}

// names are what left and right are called, as their dots are drawn. Where they end at
// about the same place, the one further on has both.
func (h PlayerHeights) names() (left, right string) {
	const l, r, both = "left ●", "right ○", "left ●, right ○"
	leftEnd, isLeft := End(h.Left)
	rightEnd, isRight := End(h.Right)
	switch together := math.Abs(leftEnd.Passes-rightEnd.Passes) < 40 && math.Abs(leftEnd.Height-rightEnd.Height) < 0.5; {
	case !isLeft || !isRight || !together:
		return l, r
	case leftEnd.Passes > rightEnd.Passes:
		return both, ""
	}
	return "", both
}

// Point is a height after so many passes.
type Point struct{ Passes, Height float64 }

// End is where the last part of a side ends, and whether there is one.
func End(parts []Worn) (Point, bool) {
	for _, part := range slices.Backward(parts) {
		if n := len(part.Passes); n > 0 {
			return Point{part.Passes[n-1], part.Heights[n-1]}, true
		}
	}
	return Point{}, false
}

// upper is where the slowest wear of the span is when the fastest is due.
func (a *Ahead) upper(change float64) float64 {
	if a.High <= 0 {
		return change
	}
	return a.Height - (a.Height-change)*a.Low/a.High
}

func (h PlayerHeights) extent() (passes, heights []float64) {
	passes = append(passes, 0)
	for _, worn := range slices.Concat(h.Left, h.Right, h.Earlier) {
		passes, heights = append(passes, worn.Passes...), append(heights, worn.Heights...)
	}
	if h.Ahead != nil {
		passes = append(passes, h.Ahead.Passes+h.Ahead.High)
		heights = append(heights, h.Ahead.Height)
	}
	if len(heights) > 0 && h.Change > 0 {
		heights = append(heights, h.Change)
	}
	return passes, heights
}
