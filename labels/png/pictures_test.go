package png

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/templates"
)

var update = flag.Bool("update", false, "write the README's pictures of the tags anew")

const pictures = "../../testdata/pictures"

// TestPicturesOfTheTags holds the README's pictures to what the program draws.
func TestPicturesOfTheTags(t *testing.T) {
	names := templates.Embedded().Tags()
	if len(names) < 6 {
		t.Fatalf("only %d templates are embedded", len(names))
	}
	for _, name := range names {
		comparePicture(t, name, name, templates.Sample())
	}
	unsafe := templates.Sample()
	unsafe.Unsafe, unsafe.Reason, unsafe.Side = true, "cracked", "right"
	comparePicture(t, "tie-on", "tie-on-unsafe", unsafe)
}

// frame is a tag's edge, which white paper on a white page would not show.
func frame(p labels.Page) []geometry.Rect {
	const line = 2
	return []geometry.Rect{
		{Width: p.Width, Height: line}, {Y: p.Height - line, Width: p.Width, Height: line},
		{Width: line, Height: p.Height}, {X: p.Width - line, Width: line, Height: p.Height},
	}
}

func comparePicture(t *testing.T, template, name string, content templates.Content) {
	t.Helper()
	parsed, err := templates.Embedded().Tag(template)
	if err != nil {
		t.Fatal(err)
	}
	page, err := labels.Layout(parsed, content, 203)
	if err != nil {
		t.Fatal(err)
	}
	page.Marks = append(page.Marks, frame(page)...)
	var drawn bytes.Buffer
	if err := Write(&drawn, page); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(pictures, name+".png")
	if *update {
		if err := os.WriteFile(path, drawn.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(kept, drawn.Bytes()) {
		t.Errorf("%s is not what the program draws now: look at it, then go test ./labels/png -update", path)
	}
}
