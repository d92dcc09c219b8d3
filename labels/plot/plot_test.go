package plot

import (
	"bytes"
	"fmt"
	"math"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/labels/drawing"
)

func date(month, day int) time.Time {
	return time.Date(2025, time.Month(month), day, 0, 0, 0, 0, time.UTC)
}

func falling(from, loss float64, step, n int) Worn {
	var w Worn
	for i := range n {
		w.Passes = append(w.Passes, float64(i*step))
		w.Heights = append(w.Heights, from-loss*float64(i*step))
	}
	return w
}

// everyPlot draws each plot with plenty, with little and with nothing.
func everyPlot() map[string]drawing.Drawing {
	h := PlayerHeights{Title: "Height against passes", Change: 15.5, Left: []Worn{falling(21, .02, 60, 4)}, Right: []Worn{falling(21, .019, 60, 2), falling(19, .019, 60, 2)},
		Ahead: &Ahead{LastPasses: 180, Last: 17.4, Passes: 200, Height: 17, Low: 60, Middle: 75, High: 95}}
	for i := range 20 {
		h.Earlier = append(h.Earlier, falling(21, .017+.0003*float64(i), 60, 5))
	}
	var removed []Removed
	var uses []Use
	for i := range 150 {
		removed = append(removed, Removed{On: date(1, 1+2*i), Height: 15.5 + math.Sin(float64(i)), Change: 15.5, Broken: i%40 == 7})
	}
	for i := range 12 {
		uses = append(uses, Use{From: date(1, 1+20*i), Until: date(1, 30+20*i), Name: fmt.Sprint(i + 1), Broken: i == 4})
	}
	leaving := Leaving{Unit: "sessions", Times: []float64{10, 20, 33}, Low: []float64{.2, .5, .8}, Breakage: []float64{.01, .01, .02}, Rest: []float64{0, .02, .05}}
	stock := StockLeft{Days: []time.Time{date(1, 1), date(2, 1), date(3, 1)}, Low: []float64{9, 4, -2}, Middle: []float64{9, 5, 0}, High: []float64{9, 7, 2}}
	rows := Rows{Title: "Player by player", Columns: []Column{{Width: 9}, {Title: "player", Width: 38}, {Title: "sets", Width: 10, Right: true}, {Title: "mm lost a pass", Width: 36, Spans: true}, {Title: "left more, %", Width: 36, Spans: true, Marked: true}}}
	for i := range 12 {
		rows.Cells = append(rows.Cells, []Cell{{Text: fmt.Sprint(i + 2)}, {Text: "Maximilian-Théodore Vandersteenhoven-Østbyfjord"}, {Text: "12"},
			{Span: true, Low: .015, Middle: .018 + .0004*float64(i), High: .03}, {Span: true, Low: -9, Middle: float64(i - 5), High: 400, Stands: i == 3}})
	}
	damages := []Damage{{"front-tower", true, false, 13}, {"rear-tower", true, false, 4}, {"toe", false, true, 1}, {"heel", false, true, 120}, {"unknown", true, true, 3}}
	return map[string]drawing.Drawing{
		"heights": h.Chart().Draw(186, 78), "no heights": PlayerHeights{Title: "x"}.Chart().Draw(186, 78),
		"too low by now": tooLowByNow().Chart().Draw(186, 78),
		"one height":     PlayerHeights{Title: "x", Left: []Worn{falling(20, 0, 0, 1)}, Change: 15.5}.Chart().Draw(186, 78),
		"removals":       Removals("Height at removal", removed, true).Draw(91, 48), "few removals": Removals("Height at removal", removed[:7], false).Draw(91, 48),
		"one removal": Removals("x", removed[:1], false).Draw(91, 48), "no removals": Removals("x", nil, true).Draw(91, 48),
		"sides": SetsApart("Left against right", []float64{-12, 4, 60, 2, -3}).Draw(91, 48), "one side": SetsApart("x", []float64{3}).Draw(91, 48), "no sides": SetsApart("x", nil).Draw(91, 48),
		"leaving": leaving.Chart("When runners leave use").Draw(91, 48), "nobody left": Leaving{}.Chart("x").Draw(91, 48),
		"stock": stock.Chart("Sets left").Draw(91, 44), "no stock": StockLeft{}.Chart("x").Draw(91, 44),
		"strip": Strip("Sets on and off", uses, date(12, 1), 186), "empty strip": Strip("x", nil, date(12, 1), 186),
		"damages": Damages("Cracks", damages, 91), "no damages": Damages("x", nil, 91),
		"rows": rows.Draw(186),
	}
}

// tooLowByNow is steel that was high enough when it was measured last.
func tooLowByNow() PlayerHeights {
	return PlayerHeights{Title: "x", Change: 15.5, Left: []Worn{falling(17, .02, 20, 3)}, Ahead: &Ahead{LastPasses: 40, Last: 16.2, Passes: 120, Height: 14.6}}
}

// Steel never grows: no line of what is to be expected rises, or goes back.
func TestNothingGrowsAgain(t *testing.T) {
	dashed := 0
	for _, layer := range tooLowByNow().Chart().Layer {
		curve, ok := layer.(Curve)
		if !ok || !curve.Dashed {
			continue
		}
		dashed++
		for i := 1; i < len(curve.X); i++ {
			if curve.X[i] < curve.X[i-1] || curve.Y[i] > curve.Y[i-1] {
				t.Errorf("%v, %v", curve.X, curve.Y)
			}
		}
	}
	if dashed != 1 {
		t.Errorf("%d dashed lines", dashed)
	}
}

// bounds of a shape; of a text with its descenders.
func bounds(shape drawing.Shape) (x1, y1, x2, y2 geometry.Millimetre) {
	var points []geometry.Point
	switch s := shape.(type) {
	case drawing.Line:
		points = s.Points
	case drawing.Area:
		points = s.Points
	case drawing.Dot:
		points = []geometry.Point{at(s.At.X-s.Radius, s.At.Y-s.Radius), at(s.At.X+s.Radius, s.At.Y+s.Radius)}
	case drawing.Text:
		start := s.Start()
		points = []geometry.Point{at(start.X, start.Y-s.Capital), at(start.X+drawing.WidthOf(s.Style, s.Capital, s.Text), start.Y)}
	}
	x1, y1 = math.MaxInt, math.MaxInt
	for _, p := range points {
		x1, y1, x2, y2 = min(x1, p.X), min(y1, p.Y), max(x2, p.X), max(y2, p.Y)
	}
	return x1, y1, x2, y2
}

// TestEverythingOnPaper: nothing is drawn beside the paper, and no number is none.
func TestEverythingOnPaper(t *testing.T) {
	plots := everyPlot()
	if len(plots) < 15 {
		t.Fatalf("only %d plots", len(plots))
	}
	for name, d := range plots {
		if len(d.Shapes) == 0 {
			t.Errorf("%s: nothing drawn, not even why", name)
		}
		for _, shape := range d.Shapes {
			const slack = 1.6 // half a dot or a cross at the edge
			x1, y1, x2, y2 := bounds(shape)
			if !(x1 >= -slack && y1 >= -slack && x2 <= d.Width+slack && y2 <= d.Height+slack) {
				t.Errorf("%s: %T %+v leaves %v × %v", name, shape, shape, d.Width, d.Height)
			}
		}
	}
}

// TestLettersDoNotOverlap: no two texts lie on each other.
func TestLettersDoNotOverlap(t *testing.T) {
	compared := 0
	for name, d := range everyPlot() {
		var texts []drawing.Text
		for _, shape := range d.Shapes {
			if text, ok := shape.(drawing.Text); ok && text.Text != "" {
				texts = append(texts, text)
			}
		}
		for i, a := range texts {
			ax1, ay1, ax2, ay2 := bounds(a)
			for _, b := range texts[:i] {
				compared++
				bx1, by1, bx2, by2 := bounds(b)
				if ax1 < bx2 && bx1 < ax2 && ay1 < by2 && by1 < ay2 {
					t.Errorf("%s: %q lies on %q", name, a.Text, b.Text)
				}
			}
		}
	}
	if compared < 200 {
		t.Errorf("only %d pairs of texts were compared", compared)
	}
}

// TestLettersLieOnNoLine: no level line, such as an axis, goes through a text.
func TestLettersLieOnNoLine(t *testing.T) {
	compared := 0
	for name, d := range everyPlot() {
		for _, shape := range d.Shapes {
			line, ok := shape.(drawing.Line)
			if !ok || len(line.Points) != 2 || line.Points[0].Y != line.Points[1].Y {
				continue
			}
			from, to := line.Points[0], line.Points[1]
			for _, shape := range d.Shapes {
				text, ok := shape.(drawing.Text)
				if !ok || text.Text == "" {
					continue
				}
				compared++
				x1, y1, x2, y2 := bounds(text)
				if min(from.X, to.X) < x2 && x1 < max(from.X, to.X) && y1 < from.Y && from.Y < y2 {
					t.Errorf("%s: a line goes through %q", name, text.Text)
				}
			}
		}
	}
	if compared < 200 {
		t.Errorf("only %d texts and lines were compared", compared)
	}
}

// TestReadableAtArmsLength: no capitals below 2 mm, no line below a tenth of a
// millimetre, and only greys that a printer keeps apart.
func TestReadableAtArmsLength(t *testing.T) {
	greys := map[drawing.Grey]bool{drawing.Black: true, drawing.Dark: true, drawing.Light: true, drawing.Pale: true, drawing.White: true}
	for name, d := range everyPlot() {
		for _, shape := range d.Shapes {
			switch s := shape.(type) {
			case drawing.Text:
				if s.Capital < 2 {
					t.Errorf("%s: %q is %v high", name, s.Text, s.Capital)
				}
				if s.Text != drawing.Shorten(s.Style, s.Capital, 1000, s.Text) {
					t.Errorf("%s: %q has letters that the face lacks", name, s.Text)
				}
			case drawing.Line:
				if s.Width < 0.07 || !greys[s.Grey] {
					t.Errorf("%s: a line of %v in grey %v", name, s.Width, s.Grey)
				}
			}
		}
	}
}

// TestSameSceneForPaperAndScreen writes every plot as SVG.
func TestSameSceneForPaperAndScreen(t *testing.T) {
	for name, d := range everyPlot() {
		var out bytes.Buffer
		if err := d.WriteSVG(&out, name); err != nil || bytes.Contains(out.Bytes(), []byte("NaN")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestRoundNumbers puts at most seven round numbers on an axis that holds all values.
func TestRoundNumbers(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   string
	}{
		{[]float64{15.2, 21}, "14 16 18 20 22"}, {[]float64{0, 400}, "0 100 200 300 400"}, {[]float64{.0123, .0251}, "0.010 0.015 0.020 0.025 0.030"},
		{[]float64{-3, 61}, "-20 0 20 40 60 80"}, {[]float64{5, 5}, "4.4 4.6 4.8 5.0 5.2 5.4 5.6"}, {nil, "0.0 0.2 0.4 0.6 0.8 1.0"},
		{[]float64{math.NaN(), math.Inf(1), 1, 2}, "1.0 1.2 1.4 1.6 1.8 2.0"},
	} {
		a, got := Numbers("", c.values...), ""
		for i, tick := range a.Ticks {
			if i > 0 {
				got += " "
			}
			got += tick.Label
		}
		if got != c.want {
			t.Errorf("%v: %q, want %q", c.values, got, c.want)
		}
		for _, v := range c.values {
			if !math.IsNaN(v) && !math.IsInf(v, 0) && (v < a.Low || v > a.High) {
				t.Errorf("%v is not on %v to %v", v, a.Low, a.High)
			}
		}
	}
}

// TestPlacesOnPaper puts values where the axes say, Y upwards.
func TestPlacesOnPaper(t *testing.T) {
	p := pane{chart: Chart{X: Axis{Low: 0, High: 10}, Y: Axis{Low: 15, High: 21}}, left: 10, right: 110, top: 5, bottom: 65}
	if p.x(2.5) != 35 || p.y(18) != 35 || p.y(21) != 5 || p.y(99) != 5 || p.x(-4) != 10 {
		t.Errorf("x %v, y %v, top %v, beyond %v and %v", p.x(2.5), p.y(18), p.y(21), p.y(99), p.x(-4))
	}
}

// TestOverlappingSetsLieBelow gives sets that are in turn rows of their own.
func TestOverlappingSetsLieBelow(t *testing.T) {
	rows := lanes([]Use{{From: date(1, 1), Until: date(2, 1)}, {From: date(1, 10), Until: date(3, 1)}, {From: date(2, 1), Until: date(2, 20)}, {From: date(2, 10), Until: date(4, 1)}})
	if len(rows) != 3 || len(rows[0]) != 2 || len(rows[1]) != 1 || len(rows[2]) != 1 {
		t.Errorf("%d rows: %v", len(rows), rows)
	}
}
