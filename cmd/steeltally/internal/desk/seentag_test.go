package desk

import (
	"image"
	"testing"

	"steeltally/labels/reader"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

const (
	tallyOf177  = "T1.1100000177.1.11.17L.251002.251101.1170.940.2.11.1270.LOW.39"
	numberOf177 = "1100000177"
)

// symbolAt is a symbol of a side of 100 pixels at a place.
func symbolAt(kind symbol.Symbology, text string, x, y int) reader.Found {
	f := reader.Found{Text: text, Symbology: kind}
	for i, p := range [4]image.Point{{x, y}, {x + 100, y}, {x + 100, y + 100}, {x, y + 100}} {
		f.Corners[i], f.Outline[i] = p, picture.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	return f
}

// The two symbols of a tag are one tag, whatever lies between; two tags that say the
// same are two.
func TestSymbolsOfOneTagBelongTogether(t *testing.T) {
	p := Photograph{File: "bench.jpg"}
	p.sort([]reader.Found{
		symbolAt(symbol.QR, tallyOf177, 0, 0),
		symbolAt(symbol.QR, tallyOf177, 0, 1000),
		symbolAt(symbol.DataMatrix, numberOf177, 500, 1100),
		symbolAt(symbol.QR, "https://terns.example", 800, 0),
		symbolAt(symbol.DataMatrix, numberOf177, 500, 100),
		symbolAt(symbol.DataMatrix, "1100000274", 0, 2000),
	})
	if len(p.Tags) != 3 || len(p.Others) != 1 || p.Others[0].Text != "https://terns.example" {
		t.Fatalf("%d tags, %d others", len(p.Tags), len(p.Others))
	}
	want := [4][2]int{{0, 1000}, {600, 1000}, {600, 1200}, {0, 1200}}
	if tag := p.Tags[1]; tag.Corners != want || tag.Text != tallyOf177 || tag.Number.String() != numberOf177 {
		t.Errorf("%+v", tag)
	}
	if tag := p.Tags[2]; tag.Text != "1100000274" || tag.Corners != [4][2]int{{0, 2000}, {100, 2000}, {100, 2100}, {0, 2100}} {
		t.Errorf("%+v", tag)
	}
	if scans := p.scans(); len(scans) != 4 || scans[0] != tallyOf177 || scans[3] != "https://terns.example" {
		t.Errorf("scans %q", scans)
	}
}
