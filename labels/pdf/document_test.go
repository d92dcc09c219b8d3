package pdf_test

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/pdf"
	"steeltally/templates"
)

// tag lays out an embedded template with the sample content.
func tag(t *testing.T, name string, dpi geometry.DPI) labels.Page {
	t.Helper()
	template, err := templates.Embedded().Tag(name)
	if err != nil {
		t.Fatal(err)
	}
	page, err := labels.Layout(template, templates.Sample(), dpi)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// document is the file of some pages.
func document(t *testing.T, pages ...labels.Page) []byte {
	t.Helper()
	d, err := pdf.New()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		if err := d.Add(p); err != nil {
			t.Fatal(err)
		}
	}
	var file bytes.Buffer
	n, err := d.WriteTo(&file)
	if err != nil {
		t.Fatal(err)
	}
	if n != int64(file.Len()) {
		t.Errorf("%d bytes told, %d written", n, file.Len())
	}
	return file.Bytes()
}

func TestSamePagesGiveSameBytes(t *testing.T) {
	first := document(t, tag(t, "tie-on", 203), tag(t, "pair", 203))
	second := document(t, tag(t, "tie-on", 203), tag(t, "pair", 203))
	if !bytes.Equal(first, second) {
		t.Error("two documents of the same pages differ")
	}
	if other := document(t, tag(t, "pair", 203)); bytes.Equal(first, other) {
		t.Error("documents of different pages are equal")
	}
}

// The file itself asks not to be scaled, and its last cross-reference table points to
// the catalog that says so.
func TestFileAsksNotToBeScaled(t *testing.T) {
	file := document(t, tag(t, "tie-on", 203))
	catalog := bytes.LastIndex(file, []byte("1 0 obj"))
	if catalog < 0 || !bytes.Contains(file[catalog:], []byte("/ViewerPreferences << /PrintScaling /None >>")) {
		t.Fatal("the last catalog has no PrintScaling None")
	}
	var entry bytes.Buffer
	entry.WriteString("xref\n1 1\n")
	digits := "0000000000"
	offset := []byte(digits)
	for i, at := len(offset)-1, catalog; at > 0; i, at = i-1, at/10 {
		offset[i] = byte('0' + at%10)
	}
	entry.Write(offset)
	if !bytes.Contains(file[catalog:], entry.Bytes()) {
		t.Errorf("no cross-reference entry %q", entry.String())
	}
}

// failing is a disk that fills up after some bytes.
type failing struct{ left int }

var errFull = errors.New("no space left")

func (f *failing) Write(b []byte) (int, error) {
	if len(b) > f.left {
		n := f.left
		f.left = 0
		return n, errFull
	}
	f.left -= len(b)
	return len(b), nil
}

// A full disk is told wherever it strikes: the PDF writer itself would hide it.
func TestWriteErrorsAreTold(t *testing.T) {
	whole := len(document(t, tag(t, "tie-on", 203)))
	for _, room := range []int{0, 1, 1000, whole / 2, whole - 300, whole - 1} {
		d, err := pdf.New()
		if err != nil {
			t.Fatal(err)
		}
		if err := d.Add(tag(t, "tie-on", 203)); err != nil {
			t.Fatal(err)
		}
		n, err := d.WriteTo(&failing{left: room})
		if !errors.Is(err, errFull) {
			t.Errorf("room for %d of %d bytes: error %v after %d bytes", room, whole, err, n)
		}
	}
}

func TestNothingToPrintIsRefused(t *testing.T) {
	d, err := pdf.New()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.WriteTo(io.Discard); !errors.Is(err, pdf.ErrEmpty) {
		t.Errorf("a document without pages: %v", err)
	}
	if err := d.Add(labels.Page{DPI: 203, Width: 100, Height: 100}); !errors.Is(err, pdf.ErrEmpty) {
		t.Errorf("an empty page: %v", err)
	}
}

// A letter that the face lacks is an error, never an empty place.
func TestMissingLetterIsRefused(t *testing.T) {
	p := tag(t, "pair", 203)
	p.Texts[0].Text = "1😀"
	d, err := pdf.New()
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Add(p); err == nil || !strings.Contains(err.Error(), "U+1F600") {
		t.Errorf("an emoji: %v", err)
	}
}
