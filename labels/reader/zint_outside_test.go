//go:build outside

package reader_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/labels/reader"
)

// TestReadZint reads what zint, an independent encoder, draws: every version and
// level of QR Code and every size of Data Matrix that the reader looks for, and Code 128.
func TestReadZint(t *testing.T) {
	read := 0
	for version := 1; version <= 10; version++ {
		for level := 1; level <= 4; level++ {
			text := fmt.Sprintf("1%03d%02d2744", version, level)
			readZint(t, text, "QRCODE", "--quietzones", fmt.Sprint("--vers=", version), fmt.Sprint("--secure=", level))
			read++
		}
	}
	for version := 1; version <= 9; version++ { // 10 × 10 to 26 × 26
		readZint(t, fmt.Sprintf("%d42744", version), "DATAMATRIX", "--quietzones", fmt.Sprint("--vers=", version))
		read++
	}
	for version := 25; version <= 30; version++ { // 8 × 18 to 16 × 48
		readZint(t, fmt.Sprintf("%d00042744", version), "DATAMATRIX", "--quietzones", fmt.Sprint("--vers=", version))
		read++
	}
	for i := range 10 {
		readZint(t, fmt.Sprintf("10%08d", 42744*i), "CODE128", "--quietzones")
		read++
	}
	t.Logf("%d symbols were read", read)
}

func readZint(t *testing.T, text, kind string, options ...string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "symbol.png")
	run(t, "zint", append([]string{"-b", kind, "-d", text, "--scale=2", "-o", file}, options...)...)
	if found := readFile(t, file); len(found) != 1 || found[0] != text {
		t.Errorf("%s %v: wanted %q, read %q", kind, options, text, found)
	}
}

// readFile is the texts that are read in a picture file.
func readFile(t *testing.T, file string) []string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	img, err := reader.Open(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for _, f := range read(t, img, reader.Options{}) {
		texts = append(texts, f.Text)
	}
	return texts
}

// run runs a program that must be there and must succeed.
func run(t *testing.T, name string, arguments ...string) string {
	t.Helper()
	out, err := exec.Command(name, arguments...).Output()
	if err != nil {
		t.Fatalf("%s %s: %v", name, strings.Join(arguments, " "), err)
	}
	return string(out)
}

// TestOrientationAsImageMagick turns photographs as ImageMagick does.
func TestOrientationAsImageMagick(t *testing.T) {
	for orientation := range uint16(8) {
		folder := t.TempDir()
		photo, upright := filepath.Join(folder, "photo.jpg"), filepath.Join(folder, "photo.png")
		data := withOrientation(t, binary.BigEndian, orientation+1)
		if err := os.WriteFile(photo, data, 0o600); err != nil {
			t.Fatal(err)
		}
		run(t, "mogrify", "-auto-orient", "-format", "png", photo)
		file, err := os.ReadFile(upright)
		if err != nil {
			t.Fatal(err)
		}
		want, err := png.Decode(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		got, err := reader.Open(bytes.NewReader(data))
		if err != nil || got.Bounds() != want.Bounds() {
			t.Fatalf("orientation %d: %v, ImageMagick makes %v: %v", orientation+1, got.Bounds(), want.Bounds(), err)
		}
		for y := range want.Bounds().Dy() {
			for x := range want.Bounds().Dx() {
				if isDark(got, x, y) != isDark(want, x, y) {
					t.Fatalf("orientation %d differs at %d, %d", orientation+1, x, y)
				}
			}
		}
	}
}
