//go:build outside

package pdf_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels/drawing"
	"steeltally/labels/pdf"
)

// Programs that we did not write find every word of a drawing, and its ink where the
// drawing says: a black square, a grey one, a line and nothing elsewhere.
func TestDrawingsAsOthersSeeThem(t *testing.T) {
	d := drawing.Drawing{Width: 100, Height: 50}
	d.Add(drawing.Rectangle(10, 10, 10, 10, drawing.Black), drawing.Rectangle(30, 10, 10, 10, drawing.Light),
		drawing.Segment(50, 15, 70, 15, 1, drawing.Black), drawing.Dot{At: geometry.Point{X: 80, Y: 15}, Radius: 3, Hollow: true},
		drawing.Text{At: geometry.Point{X: 10, Y: 40}, Text: "height, mm Øksnesvoll", Capital: 2.1},
		drawing.Text{At: geometry.Point{X: 95, Y: 45}, Text: "upright", Capital: 2.1, Upright: true})
	document, err := pdf.New()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := document.AddDrawing(d); err != nil {
		t.Fatal(err)
	}
	if _, err := document.WriteTo(&out); err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	file := filepath.Join(folder, "d.pdf")
	if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command("pdftotext", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"height, mm Øksnesvoll", "upright"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%q is not found in %q", want, text)
		}
	}
	if err := exec.Command("pdftoppm", "-gray", "-r", "254", file, filepath.Join(folder, "d")).Run(); err != nil {
		t.Fatal(err)
	}
	pages, err := filepath.Glob(filepath.Join(folder, "d*.pgm"))
	if err != nil || len(pages) != 1 {
		t.Fatalf("%d pages, %v", len(pages), err)
	}
	checkGreys(t, pages[0], map[[2]int]int{ // in tenths of a millimetre
		{150, 150}: 0, {350, 150}: 179, {600, 150}: 0, {600, 160}: 255, {800, 150}: 255, {830, 150}: 0, {250, 150}: 255,
	})
}

// checkGreys looks at pixels of a picture, with a little slack.
func checkGreys(t *testing.T, file string, want map[[2]int]int) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	fields := bytes.Fields(data[:40])
	if len(fields) < 4 || string(fields[0]) != "P5" || string(fields[1]) != "1000" || string(fields[2]) != "500" {
		t.Fatalf("the page is %q", data[:20])
	}
	pixels := data[len(data)-1000*500:]
	for at, grey := range want {
		got := int(pixels[at[1]*1000+at[0]])
		if got < grey-3 || got > grey+3 {
			t.Errorf("at %.1f, %.1f mm the page has grey %d, want %d", float64(at[0])/10, float64(at[1])/10, got, grey)
		}
	}
}
