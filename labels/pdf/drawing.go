package pdf

import (
	"fmt"
	"math"

	"github.com/signintech/gopdf"

	"steeltally/geometry"
	"steeltally/labels/drawing"
)

const pointsPerMillimetre = 72 / 25.4

// AddDrawing makes a drawing a page of its own.
func (d *Document) AddDrawing(picture drawing.Drawing) error {
	if len(picture.Shapes) == 0 {
		return fmt.Errorf("page %d: %w", d.pages+1, ErrEmpty)
	}
	size := gopdf.Rect{W: floorPoint(mm(picture.Width)), H: floorPoint(mm(picture.Height))}
	d.pdf.AddPageWithOption(gopdf.PageOption{PageSize: &size})
	d.pages++
	for _, shape := range picture.Shapes {
		if err := d.shape(shape); err != nil {
			return err
		}
	}
	d.state = state{fresh: true}
	return nil
}

func (d *Document) shape(shape drawing.Shape) error {
	switch s := shape.(type) {
	case drawing.Line:
		d.stroke(s)
	case drawing.Area:
		d.pdf.SetGrayFill(float64(s.Grey))
		d.pdf.Polygon(corners(s.Points), "F")
	case drawing.Dot:
		d.dot(s)
	case drawing.Text:
		return d.letters(s)
	default:
		return fmt.Errorf("a %T can't be drawn", shape)
	}
	return nil
}

// stroke draws a line piece by piece: the PDF writer knows no open paths.
func (d *Document) stroke(l drawing.Line) {
	d.pdf.SetGrayStroke(float64(l.Grey))
	d.pdf.SetLineWidth(mm(l.Width))
	for _, points := range l.Strokes() {
		for i := 1; i < len(points); i++ {
			d.pdf.Line(mm(points[i-1].X), mm(points[i-1].Y), mm(points[i].X), mm(points[i].Y))
		}
	}
}

// dotCorners makes a polygon look round at the size of a dot.
const dotCorners = 24

func (d *Document) dot(dot drawing.Dot) {
	ring := func(radius geometry.Millimetre, grey drawing.Grey) {
		points := make([]geometry.Point, dotCorners)
		for i := range points {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / dotCorners)
			points[i] = geometry.Point{X: dot.At.X + radius*geometry.Millimetre(cos), Y: dot.At.Y + radius*geometry.Millimetre(sin)}
		}
		d.pdf.SetGrayFill(float64(grey))
		d.pdf.Polygon(corners(points), "F")
	}
	const rim geometry.Millimetre = 0.3
	ring(dot.Radius+rim/2, dot.Grey)
	if dot.Hollow {
		ring(dot.Radius-rim/2, drawing.White)
	}
}

// letters writes a line of text. Letters that the face lacks are an error, as on tags.
func (d *Document) letters(t drawing.Text) error {
	if err := covered(t.Text, t.Style); err != nil {
		return err
	}
	if err := d.pdf.SetFontWithStyle(family, fontStyle(t.Style), mm(drawing.Em(t.Style, t.Capital))); err != nil {
		return fmt.Errorf("text %q: %w", t.Text, err)
	}
	d.pdf.SetGrayFill(float64(t.Grey))
	at := t.Start()
	x, y := mm(at.X), mm(at.Y)
	if t.Upright {
		d.pdf.Rotate(quarterTurn, x, y)
		defer d.pdf.RotateReset()
	}
	d.pdf.SetXY(x, y)
	return d.pdf.Text(t.Text)
}

// quarterTurn is the angle of a text that runs upwards, in degrees.
const quarterTurn = 90

func corners(points []geometry.Point) []gopdf.Point {
	list := make([]gopdf.Point, len(points))
	for i, p := range points {
		list[i] = gopdf.Point{X: mm(p.X), Y: mm(p.Y)}
	}
	return list
}

// mm is a length in points.
func mm(l geometry.Millimetre) float64 { return float64(l) * pointsPerMillimetre }
