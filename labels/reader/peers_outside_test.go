//go:build outside

package reader_test

import (
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/labels/reader"
)

// TestAgainstPeers reads the same photographs with the general-purpose readers and
// prints what each found. This reader must find at least as many tags as any of
// them, and nothing that is on no tag.
func TestAgainstPeers(t *testing.T) {
	hard := benchScene()
	hard.module, hard.noise, hard.darkest = 2.5, 10, 0.15
	for name, s := range map[string]scene{"bench": benchScene(), "hard": hard} {
		t.Run(name, func(t *testing.T) { comparePeers(t, s) })
	}
}

func comparePeers(t *testing.T, s scene) {
	img, tags := s.render(t, rand.New(rand.NewPCG(40, 1)))
	folder := t.TempDir()
	whole := savePNG(t, img, filepath.Join(folder, "whole.png"))
	crops := saveCrops(t, img, tags, folder)
	var ours tally
	start := time.Now()
	found := read(t, img, reader.Options{})
	ours.together = time.Since(start)
	ours.count(tags, texts(found))
	t.Logf("%-26s %v", "this reader", ours)
	for _, peer := range []struct {
		name string
		look func() []string
	}{
		{"ZXingReader", func() []string { return zxing(t, whole) }},
		{"ZXingReader, a crop a tag", func() []string { return each(t, crops, zxing) }},
		{"zbarimg", func() []string { return zbar(t, whole) }},
		{"zbarimg, a crop a tag", func() []string { return each(t, crops, zbar) }},
		{"dmtxread, at most 20 s", func() []string { return dmtx(t, whole) }},
	} {
		var c tally
		start := time.Now()
		found := peer.look()
		c.together = time.Since(start)
		c.count(tags, found)
		t.Logf("%-26s %v", peer.name, c)
		if c.found > ours.found {
			t.Errorf("%s found %d tags, this reader %d", peer.name, c.found, ours.found)
		}
	}
	if ours.wrong > 0 {
		t.Errorf("%d texts are on no tag", ours.wrong)
	}
}

// String is a line for a table.
func (c tally) String() string {
	return fmt.Sprintf("%d of %d tags (%d QR Code, %d Data Matrix symbols), %d wrong, %v",
		c.found, c.tags, c.byText, c.byNumber, c.wrong, c.together.Round(100*time.Millisecond))
}

func texts(found []reader.Found) []string {
	var all []string
	for _, f := range found {
		all = append(all, f.Text)
	}
	return all
}

func each(t *testing.T, files []string, look func(*testing.T, string) []string) []string {
	var all []string
	for _, file := range files {
		all = append(all, look(t, file)...)
	}
	return all
}

func savePNG(t *testing.T, img image.Image, name string) string {
	t.Helper()
	file, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	fast := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := fast.Encode(file, img); err != nil {
		t.Fatal(err)
	}
	return name
}

// saveCrops cuts a picture of each tag out, as a person would.
func saveCrops(t *testing.T, img image.Image, tags []placedTag, folder string) []string {
	t.Helper()
	part, ok := img.(interface {
		SubImage(image.Rectangle) image.Image
	})
	if !ok {
		t.Fatalf("a %T can't be cut", img)
	}
	var files []string
	for i, tag := range tags {
		left, top, right, bottom := bounds(tag.outline)
		area := image.Rect(left, top, right, bottom).Inset(-10).Intersect(img.Bounds())
		files = append(files, savePNG(t, part.SubImage(area), filepath.Join(folder, fmt.Sprint(i, ".png"))))
	}
	return files
}

// zxing reads the one symbol that ZXingReader finds in a picture.
func zxing(t *testing.T, file string) []string {
	for _, line := range output(t, "ZXingReader", file) {
		if text, found := strings.CutPrefix(line, "Text:"); found {
			return []string{strings.Trim(strings.TrimSpace(text), `"`)}
		}
	}
	return nil
}

func zbar(t *testing.T, file string) []string { return output(t, "zbarimg", "--quiet", "--raw", file) }

func dmtx(t *testing.T, file string) []string { return output(t, "dmtxread", "-n", "-m20000", file) }

// output is the lines that a program prints. Readers also fail where nothing was
// found; only a program that can't be started fails the test.
func output(t *testing.T, name string, arguments ...string) []string {
	t.Helper()
	out, err := exec.Command(name, arguments...).Output()
	if _, ended := err.(*exec.ExitError); err != nil && !ended {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}
