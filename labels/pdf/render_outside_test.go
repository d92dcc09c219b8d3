//go:build outside

package pdf_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"steeltally/geometry"
)

// raster is a rendered page: 0 is black, 255 white.
type raster struct {
	width, height int
	level         []byte
}

// black tells whether a dot is darker than half.
func (r raster) black(i int) bool { return r.level[i] < 128 }

// renderer is an independent program that makes dots of a PDF.
type renderer struct {
	name string
	run  func(file, to string, dpi geometry.DPI) *exec.Cmd
}

// renderers are poppler and mupdf, each in black and white and in grey levels.
func renderers() []renderer {
	return []renderer{
		{"poppler mono", func(file, to string, dpi geometry.DPI) *exec.Cmd {
			return exec.Command("pdftoppm", "-singlefile", "-mono", "-r", fmt.Sprint(dpi), file, to)
		}},
		{"poppler grey", func(file, to string, dpi geometry.DPI) *exec.Cmd {
			return exec.Command("pdftoppm", "-singlefile", "-gray", "-r", fmt.Sprint(dpi), file, to)
		}},
		{"mupdf mono", func(file, to string, dpi geometry.DPI) *exec.Cmd {
			return exec.Command("mutool", "draw", "-q", "-A", "0", "-c", "gray", "-F", "pgm", "-r", fmt.Sprint(dpi), "-o", to+".pgm", file, "1")
		}},
		{"mupdf grey", func(file, to string, dpi geometry.DPI) *exec.Cmd {
			return exec.Command("mutool", "draw", "-q", "-c", "gray", "-F", "pgm", "-r", fmt.Sprint(dpi), "-o", to+".pgm", file, "1")
		}},
	}
}

// render makes dots of a PDF's first page.
func render(t *testing.T, r renderer, file []byte, dpi geometry.DPI) raster {
	t.Helper()
	folder := t.TempDir()
	source, to := filepath.Join(folder, "in.pdf"), filepath.Join(folder, "out")
	if err := os.WriteFile(source, file, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := r.run(source, to, dpi).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", r.name, err, out)
	}
	for _, ending := range []string{".pbm", ".pgm"} {
		if picture, err := os.ReadFile(to + ending); err == nil {
			return readNetpbm(t, picture)
		}
	}
	t.Fatalf("%s wrote no picture", r.name)
	return raster{}
}

// readNetpbm reads a binary PBM or PGM.
func readNetpbm(t *testing.T, file []byte) raster {
	t.Helper()
	var kind string
	var r raster
	if _, err := fmt.Sscan(string(file[:min(len(file), 40)]), &kind, &r.width, &r.height); err != nil {
		t.Fatalf("netpbm header: %v", err)
	}
	r.level = make([]byte, r.width*r.height)
	switch kind {
	case "P4":
		stride := (r.width + 7) / 8
		body := file[len(file)-stride*r.height:]
		for i := range r.level {
			x, y := i%r.width, i/r.width
			if body[y*stride+x/8]&(0x80>>(x%8)) == 0 {
				r.level[i] = 255
			}
		}
	case "P5":
		copy(r.level, file[len(file)-r.width*r.height:])
	default:
		t.Fatalf("%q is not a picture that this test reads", kind)
	}
	return r
}

// The PDF is sound in the eyes of a program that knows the format.
func TestQPDFFindsNoFault(t *testing.T) {
	for _, name := range []string{"tie-on", "tie-on-folded", "trunk"} {
		file := filepath.Join(t.TempDir(), "tag.pdf")
		if err := os.WriteFile(file, document(t, tag(t, name, 203), tag(t, name, 203)), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("qpdf", "--check", file).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
		out, err := exec.Command("qpdf", "--show-object=1", file).Output()
		if err != nil || !bytes.Contains(out, []byte("/PrintScaling /None")) {
			t.Errorf("%s: catalog %s (%v) does not ask for no scaling", name, out, err)
		}
	}
}
