//go:build outside

package pdf_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/symbol"
	"steeltally/templates"
)

// reader is an independent program that reads symbols in pictures.
type reader struct {
	name string
	read func(file string) *exec.Cmd
}

// readersOf are two readers for a symbology, of different origin. Each prints the
// text of a symbol on a line.
func readersOf(kind symbol.Symbology) []reader {
	zxing := map[symbol.Symbology]string{symbol.QR: "QRCode", symbol.DataMatrix: "DataMatrix", symbol.Code128: "Code128"}[kind]
	first := reader{"ZXingReader", func(file string) *exec.Cmd {
		return exec.Command("ZXingReader", "-bytes", "-format", zxing, file)
	}}
	if kind == symbol.DataMatrix {
		return []reader{first, {"dmtxread", func(file string) *exec.Cmd {
			return exec.Command("dmtxread", "-n", "-N", "1", "-m", "4000", file)
		}}}
	}
	return []reader{first, {"zbarimg", func(file string) *exec.Cmd {
		return exec.Command("zbarimg", "-q", "--raw", file)
	}}}
}

// Every symbol of every template, on paper of every kind, is read by two readers that
// we did not write.
func TestEverySymbolIsRead(t *testing.T) {
	library, read := templates.Embedded(), 0
	for _, name := range library.Tags() {
		tag, err := library.Tag(name)
		if err != nil {
			t.Fatal(err)
		}
		sheets := library.FittingSheets(tag)
		for i, dpi := range []geometry.DPI{203, 300, 600} {
			for j, r := range renderers() {
				sheet := sheets[(i+j)%min(len(sheets), 3)]
				page := twoTags(t, library, name, sheet, dpi)
				picture := render(t, r, document(t, page), dpi)
				for _, s := range page.Symbols {
					read += readSymbol(t, fmt.Sprintf("%s on %s at %d dpi, %s", name, sheet, dpi, r.name), picture, s)
				}
			}
		}
	}
	t.Logf("%d readings", read)
	if read < 400 {
		t.Errorf("only %d readings", read)
	}
}

// readSymbol cuts a symbol out of a rendered page, with some dots around its quiet
// zone, and has both readers read it. It gives the number of right readings.
func readSymbol(t *testing.T, name string, picture raster, s labels.PlacedSymbol) int {
	t.Helper()
	file := filepath.Join(t.TempDir(), "symbol.pgm")
	if err := os.WriteFile(file, crop(picture, s.Area.Inset(-4)), 0o600); err != nil {
		t.Fatal(err)
	}
	right := 0
	for _, reader := range readersOf(s.Choice.Symbol.Symbology) {
		out, err := reader.read(file).Output()
		if got := strings.TrimSpace(string(out)); got != s.Choice.Symbol.Text {
			t.Errorf("%s: %s reads %q (%v), want %q", name, reader.name, got, err, s.Choice.Symbol.Text)
			continue
		}
		right++
	}
	return right
}

// crop writes a part of a picture as PGM.
func crop(picture raster, area geometry.Rect) []byte {
	left, top := max(int(area.X), 0), max(int(area.Y), 0)
	right, bottom := min(int(area.Right()), picture.width), min(int(area.Bottom()), picture.height)
	var file bytes.Buffer
	fmt.Fprintf(&file, "P5\n%d %d\n255\n", right-left, bottom-top)
	for y := top; y < bottom; y++ {
		file.Write(picture.level[y*picture.width+left : y*picture.width+right])
	}
	return file.Bytes()
}

// A full sheet of different tie-on tags, rendered in black and white at 203 dpi: each
// QR's first run of ten digits and each Data Matrix is its tag's number.
func TestSheetOfTieOnTagsIsRead(t *testing.T) {
	library := templates.Embedded()
	template, err := library.Tag("tie-on")
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := library.Sheet("a4-3x8")
	if err != nil {
		t.Fatal(err)
	}
	var tags []labels.Page
	for i := range sheet.Cells() {
		tag, err := labels.Layout(template, content(i), 203)
		if err != nil {
			t.Fatal(err)
		}
		tags = append(tags, tag)
	}
	pages, err := labels.Imposition{Sheet: sheet}.Impose(tags)
	if err != nil {
		t.Fatal(err)
	}
	picture := render(t, renderers()[0], document(t, pages...), 203)
	read := 0
	for _, s := range pages[0].Symbols {
		read += readSymbol(t, "sheet", picture, s)
	}
	if want := 4 * sheet.Cells(); read != want {
		t.Errorf("%d readings are right, want %d", read, want)
	}
}
