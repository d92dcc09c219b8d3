package reader

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// The largest picture that is taken: an A4 page scanned at 600 dpi has 35 million
// pixels, a telephone's largest usual photograph 50 million.
const (
	MaxPixels    = 64_000_000  // width times height
	maxMemory    = 256_000_000 // bytes of a decoded picture
	maxFileBytes = 200_000_000
)

// Why a picture can't be opened.
var (
	ErrEmptyFile   = errors.New("the file is empty: take or copy the picture again")
	ErrPDF         = errors.New("this is a PDF, not a picture: turn it into pictures first, such as with: pdftoppm -r 300 -gray -png FILE page")
	ErrPhoneFormat = errors.New("this is a HEIC or AVIF picture: save it as JPEG, or set the telephone's camera to JPEG")
	ErrUnknown     = errors.New("this is not a picture in a known format: save it as JPEG, PNG, TIFF, WebP, BMP or GIF")
	ErrBroken      = errors.New("the picture is broken or cut short: take or copy it again")
	ErrTooLarge    = fmt.Errorf("the picture is too large, %d million pixels is the most: scan at 300 dpi, or cut it in parts", MaxPixels/1_000_000)
)

// format is a kind of picture file, known by how it starts; a ? stands for any byte.
type format struct {
	start  string
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	refuse error // for what is known but not read
}

func formats() []format {
	return []format{
		{"\xff\xd8\xff", jpeg.DecodeConfig, jpeg.Decode, nil},
		{"\x89PNG\r\n\x1a\n", png.DecodeConfig, png.Decode, nil},
		{"GIF8?a", gif.DecodeConfig, gif.Decode, nil},
		{"II*\x00", tiff.DecodeConfig, tiff.Decode, nil},
		{"MM\x00*", tiff.DecodeConfig, tiff.Decode, nil},
		{"RIFF????WEBPVP8", webp.DecodeConfig, webp.Decode, nil},
		{"BM????\x00\x00\x00\x00", bmp.DecodeConfig, bmp.Decode, nil},
		{"%PDF-", nil, nil, ErrPDF},
		{"????ftyp", nil, nil, ErrPhoneFormat},
	}
}

// Open decodes a JPEG, PNG, TIFF, WebP, BMP or GIF picture (of an animated GIF the
// first frame) and turns a JPEG the way its camera was held. Its header is checked
// before it is decoded: a picture of more than MaxPixels is refused with ErrTooLarge.
func Open(r io.Reader) (image.Image, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFileBytes+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("the picture can't be read: %w", err)
	case len(data) == 0:
		return nil, ErrEmptyFile
	case len(data) > maxFileBytes:
		return nil, ErrTooLarge
	}
	f, err := formatOf(data)
	if err != nil {
		return nil, err
	}
	return f.open(data)
}

func formatOf(data []byte) (format, error) {
	for _, f := range formats() {
		if startsLike(data, f.start) {
			return f, f.refuse
		}
	}
	return format{}, ErrUnknown
}

func startsLike(data []byte, start string) bool {
	if len(data) < len(start) {
		return false
	}
	for i := range len(start) {
		if start[i] != '?' && data[i] != start[i] {
			return false
		}
	}
	return true
}

// open checks the header, then decodes.
func (f format) open(data []byte) (image.Image, error) {
	config, err := f.config(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w (%v)", ErrBroken, err)
	}
	if err := checkSize(config.Width, config.Height); err != nil {
		return nil, err
	}
	if config.Width*config.Height*bytesPerPixel(config.ColorModel) > maxMemory {
		return nil, fmt.Errorf("%w; or save it with 8 bits a colour", ErrTooLarge)
	}
	img, err := f.decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w (%v)", ErrBroken, err)
	}
	if err := checkSize(img.Bounds().Dx(), img.Bounds().Dy()); err != nil {
		return nil, err
	}
	return upright(img, jpegOrientation(data)), nil
}

// checkSize refuses pictures that have no pixels, or too many.
func checkSize(width, height int) error {
	switch {
	case width < 1 || height < 1:
		return ErrNoPicture
	case width > MaxPixels/height:
		return fmt.Errorf("%w (this one is %d × %d)", ErrTooLarge, width, height)
	}
	return nil
}

// bytesPerPixel is what a decoded picture takes at most.
func bytesPerPixel(m color.Model) int {
	switch m {
	case color.GrayModel:
		return 1
	case color.Gray16Model:
		return 2
	case color.RGBA64Model, color.NRGBA64Model:
		return 8
	default:
		return 4
	}
}
