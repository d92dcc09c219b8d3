package reader_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"strings"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"

	"steeltally/labels/reader"
)

// cornerPicture is white with one dark corner.
func cornerPicture() *image.Gray {
	img := image.NewGray(image.Rect(0, 0, 24, 16))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	for y := range 8 {
		for x := range 8 {
			img.SetGray(x, y, color.Gray{})
		}
	}
	return img
}

func encoded(t testing.TB, encode func(io.Writer, image.Image) error, img image.Image) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := encode(&file, img); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

func encodeJPEG(w io.Writer, img image.Image) error { return jpeg.Encode(w, img, nil) }
func encodeGIF(w io.Writer, img image.Image) error  { return gif.Encode(w, img, nil) }
func encodeTIFF(w io.Writer, img image.Image) error { return tiff.Encode(w, img, nil) }

func isDark(img image.Image, x, y int) bool {
	return color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y < 128
}

// TestOpenFormats decodes each format that is promised.
func TestOpenFormats(t *testing.T) {
	webp, err := os.ReadFile("testdata/corner.webp")
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"JPEG": encoded(t, encodeJPEG, cornerPicture()),
		"PNG":  encoded(t, png.Encode, cornerPicture()),
		"GIF":  encoded(t, encodeGIF, cornerPicture()),
		"BMP":  encoded(t, bmp.Encode, cornerPicture()),
		"TIFF": encoded(t, encodeTIFF, cornerPicture()),
		"WebP": webp,
	} {
		img, err := reader.Open(bytes.NewReader(data))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		last := img.Bounds().Max
		if !isDark(img, 0, 0) || isDark(img, last.X-1, last.Y-1) {
			t.Errorf("%s: the corner is not where it was drawn", name)
		}
	}
}

// TestOpenRefuses wants the reason, and what to do, for everything that is no picture.
func TestOpenRefuses(t *testing.T) {
	photo, drawing := encoded(t, encodeJPEG, cornerPicture()), encoded(t, png.Encode, cornerPicture())
	for name, c := range map[string]struct {
		data []byte
		want error
		hint string
	}{
		"empty file":       {nil, reader.ErrEmptyFile, "again"},
		"PDF":              {[]byte("%PDF-1.7\n1 0 obj"), reader.ErrPDF, "pdftoppm"},
		"HEIC":             {[]byte("\x00\x00\x00\x18ftypheic\x00\x00"), reader.ErrPhoneFormat, "JPEG"},
		"text":             {[]byte("1000042744\n"), reader.ErrUnknown, "JPEG"},
		"cut JPEG":         {photo[:len(photo)/2], reader.ErrBroken, "again"},
		"JPEG header only": {photo[:20], reader.ErrBroken, "again"},
		"cut PNG":          {drawing[:len(drawing)-20], reader.ErrBroken, "again"},
		"30000 × 30000":    {hugePNG(30000, 30000), reader.ErrTooLarge, "30000 × 30000"},
		"deep and large":   {deepPNG(8000, 7000), reader.ErrTooLarge, "8 bits"},
	} {
		img, err := reader.Open(bytes.NewReader(c.data))
		if !errors.Is(err, c.want) || !strings.Contains(err.Error(), c.hint) || img != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// hugePNG is the header of a PNG picture with 8 bits a pixel, and nothing else.
func hugePNG(width, height uint32) []byte { return pngHeader(width, height, 8, 0) }

// deepPNG has 16 bits for each of four colours.
func deepPNG(width, height uint32) []byte { return pngHeader(width, height, 16, 6) }

func pngHeader(width, height uint32, depth, colours byte) []byte {
	chunk := binary.BigEndian.AppendUint32([]byte("IHDR"), width)
	chunk = binary.BigEndian.AppendUint32(chunk, height)
	chunk = append(chunk, depth, colours, 0, 0, 0)
	file := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), chunk...)
	return binary.BigEndian.AppendUint32(file, crc32.ChecksumIEEE(chunk))
}

// TestOpenReadError passes on what kept the file from being read.
func TestOpenReadError(t *testing.T) {
	if _, err := reader.Open(io.MultiReader(strings.NewReader("BM"), failing{})); !errors.Is(err, io.ErrNoProgress) {
		t.Errorf("got %v", err)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, io.ErrNoProgress }

// TestOrientation holds each orientation to what the Exif standard says of it: on
// which side of the upright picture the first row and the first column of the file lie.
func TestOrientation(t *testing.T) {
	for orientation, c := range map[uint16]struct {
		firstRow, firstColumn string
	}{
		1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
	} {
		for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
			img, err := reader.Open(bytes.NewReader(withOrientation(t, order, orientation)))
			if err != nil {
				t.Fatal(err)
			}
			wide := c.firstRow == "top" || c.firstRow == "bottom"
			if b := img.Bounds(); (b.Dx() > b.Dy()) != wide {
				t.Errorf("orientation %d: %v", orientation, b)
			}
			// The dark corner of the file is where its first row and column meet.
			if p := cornerOn(img, c.firstRow, c.firstColumn); !isDark(img, p.X, p.Y) {
				t.Errorf("orientation %d: light at the %s %s", orientation, c.firstRow, c.firstColumn)
			}
		}
	}
}

// cornerOn is a pixel in the corner where two sides meet.
func cornerOn(img image.Image, sides ...string) image.Point {
	b, p := img.Bounds(), image.Point{X: 2, Y: 2}
	for _, side := range sides {
		switch side {
		case "right":
			p.X = b.Max.X - 3
		case "bottom":
			p.Y = b.Max.Y - 3
		}
	}
	return p
}

// withOrientation is the corner picture as a JPEG with an Exif note.
func withOrientation(t testing.TB, order binary.AppendByteOrder, orientation uint16) []byte {
	t.Helper()
	note := []byte("Exif\x00\x00MM")
	if order.String() == "LittleEndian" {
		note = []byte("Exif\x00\x00II")
	}
	note = order.AppendUint16(note, 42)
	note = order.AppendUint32(note, 8)
	note = order.AppendUint16(note, 1)
	note = order.AppendUint16(note, 274)
	note = order.AppendUint16(note, 3)
	note = order.AppendUint32(note, 1)
	note = order.AppendUint16(note, orientation)
	note = append(note, 0, 0, 0, 0, 0, 0)
	photo := encoded(t, encodeJPEG, cornerPicture())
	file := append([]byte{0xff, 0xd8, 0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(note)+2))...)
	return append(append(file, note...), photo[2:]...)
}

// FuzzOpen wants no panic, and a picture or an error, whatever the file is.
func FuzzOpen(f *testing.F) {
	f.Add(encoded(f, encodeJPEG, cornerPicture()))
	f.Add(encoded(f, png.Encode, cornerPicture()))
	f.Add(encoded(f, encodeGIF, cornerPicture()))
	f.Add(encoded(f, bmp.Encode, cornerPicture()))
	f.Add(encoded(f, encodeTIFF, cornerPicture()))
	f.Add(withOrientation(f, binary.LittleEndian, 6))
	f.Add([]byte("%PDF-1.7"))
	f.Fuzz(func(t *testing.T, data []byte) {
		const quick = 1 << 20 // pixels; larger ones only take longer to clear
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && c.Width*c.Height > quick {
			t.Skip()
		}
		img, err := reader.Open(bytes.NewReader(data))
		if (img == nil) == (err == nil) {
			t.Errorf("picture %v, error %v", img != nil, err)
		}
		if err == nil && img.Bounds().Dx()*img.Bounds().Dy() > reader.MaxPixels {
			t.Errorf("a picture of %v was taken", img.Bounds())
		}
	})
}
