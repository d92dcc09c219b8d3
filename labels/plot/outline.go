package plot

import (
	"fmt"
	"math"

	"steeltally/geometry"
	"steeltally/labels/drawing"
	"steeltally/labels/lettering"
)

// Damage is how often something happened at one place of a left or a right skate.
type Damage struct {
	Zone   string // toe, front-tower, middle, bridge, rear-tower, heel, edge, clamp
	Left   bool
	Runner bool // of the runner; else of the holder
	Count  int
}

// The outline of a holder and its runner, in hundredths of its length, toe to the left:
// a drawing of our own after no model in particular.
func holderOutline() []geometry.Point {
	return outline(6, 0, 94, 0, 94, 3, 84, 4, 80, 14, 84, 19, 97, 19, 98, 22, 2, 22, 3, 19, 14, 19, 20, 13, 17, 4, 6, 3)
}

func bridgeHole() []geometry.Point {
	return outline(38, 4, 64, 4, 61, 14, 42, 14)
}

func runnerOutline() []geometry.Point {
	return outline(1, 22, 99, 22, 98, 26, 90, 30.2, 70, 31.6, 50, 32, 30, 31.6, 10, 30.2, 2, 26)
}

func outline(xy ...millimetre) []geometry.Point {
	var points []geometry.Point
	for i := 0; i+1 < len(xy); i += 2 {
		points = append(points, at(xy[i], xy[i+1]))
	}
	return points
}

// zonePlace is where a zone lies on the outline, of the holder and of the runner.
func zonePlace(zone string, runner bool) (geometry.Point, bool) {
	places := map[string][2]geometry.Point{
		"toe": {at(6, 19.5), at(6, 27)}, "front-tower": {at(28, 9), at(28, 27.5)}, "middle": {at(51, 17.5), at(50, 27.5)},
		"bridge": {at(51, 17.5), at(50, 27.5)}, "rear-tower": {at(73, 9), at(73, 27.5)}, "heel": {at(94, 19.5), at(94, 27)},
		"edge": {at(39, 20), at(39, 30)}, "clamp": {at(62, 20), at(62, 24)},
	}
	place, known := places[zone]
	if runner {
		return place[1], known
	}
	return place[0], known
}

const (
	outlineHeight millimetre = 34
	smallestBlob  millimetre = 1.7
)

// Damages draws where left and right skates broke: black on the holder, white on the
// runner, with how often.
func Damages(title string, damages []Damage, width millimetre) drawing.Drawing {
	d := drawing.Drawing{Width: width}
	d.Add(drawing.Text{At: at(0, headCapital), Text: drawing.Shorten(lettering.Bold, headCapital, width, title), Capital: headCapital, Style: lettering.Bold})
	scale := (width - 4*letterGap) / 200
	d.Place(skate(damages, true, scale), at(0, headRoom))
	d.Place(skate(damages, false, scale), at(width/2+2*letterGap, headRoom))
	y := headRoom + outlineHeight*scale + textCapital + 3*letterGap
	d.Add(drawing.Text{At: at(0, y+textCapital), Text: "black: holder, white: runner; toe at the left", Capital: textCapital, Grey: drawing.Dark})
	d.Height = y + 2*textCapital
	return d
}

func skate(damages []Damage, left bool, scale millimetre) drawing.Drawing {
	var d drawing.Drawing
	name := "right"
	if left {
		name = "left"
	}
	for _, shape := range []drawing.Area{
		{Points: holderOutline(), Grey: drawing.Pale}, {Points: bridgeHole(), Grey: drawing.White}, {Points: runnerOutline(), Grey: drawing.Light},
	} {
		d.Add(scaled(shape, scale))
	}
	for _, damage := range damages {
		if place, ok := zonePlace(damage.Zone, damage.Runner); ok && damage.Left == left && damage.Count > 0 {
			blob(&d, at(place.X*scale, place.Y*scale), damage)
		}
	}
	d.Add(drawing.Text{At: at(50*scale, outlineHeight*scale+textCapital), Text: name, Capital: textCapital, Anchor: drawing.Middle})
	return d
}

func scaled(a drawing.Area, scale millimetre) drawing.Area {
	for i, p := range a.Points {
		a.Points[i] = at(p.X*scale, p.Y*scale)
	}
	return a
}

// blob is a disc whose area grows with the count, with the count in it.
func blob(d *drawing.Drawing, place geometry.Point, damage Damage) {
	radius := max(smallestBlob, min(3.4, smallestBlob*millimetre(math.Sqrt(float64(damage.Count))/1.6)))
	ink := drawing.White
	if damage.Runner {
		ink = drawing.Black
	}
	d.Add(drawing.Dot{At: place, Radius: radius, Hollow: damage.Runner},
		drawing.Text{At: at(place.X, place.Y+textCapital/2), Text: fmt.Sprint(damage.Count), Capital: textCapital, Style: lettering.Bold, Anchor: drawing.Middle, Grey: ink})
}
