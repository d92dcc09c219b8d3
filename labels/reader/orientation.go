package reader

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/draw"
)

// The orientation of a photograph as its camera notes it (CIPA DC-008, Exif 2.32,
// tag 274): 1 upright, 2 to 4 mirrored or upside down, 5 to 8 lying on a side too.
const (
	orientationTag = 274
	shortType      = 3
	upsideUp       = 1
	onItsSide      = 5 // and all above
	orientations   = 8
)

// jpegOrientation finds the orientation in a JPEG file; a file without one, or with
// a broken one, counts as upright.
func jpegOrientation(data []byte) int {
	if !bytes.HasPrefix(data, []byte{0xff, 0xd8}) {
		return upsideUp
	}
	for rest := data[2:]; len(rest) >= 4 && rest[0] == 0xff; {
		length := int(binary.BigEndian.Uint16(rest[2:]))
		const startOfScan, app1 = 0xda, 0xe1
		if rest[1] == startOfScan || length < 2 || len(rest) < 2+length {
			break
		}
		if tiff, found := bytes.CutPrefix(rest[4:2+length], []byte("Exif\x00\x00")); rest[1] == app1 && found {
			return exifOrientation(tiff)
		}
		rest = rest[2+length:]
	}
	return upsideUp
}

// exifOrientation looks through the first directory of the notes.
func exifOrientation(tiff []byte) int {
	if len(tiff) < 8 {
		return upsideUp
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	start := int(order.Uint32(tiff[4:]))
	if start < 8 || start > len(tiff)-2 {
		return upsideUp
	}
	const entrySize = 12
	entries := tiff[start+2:]
	for range order.Uint16(tiff[start:]) {
		if len(entries) < entrySize {
			break
		}
		if order.Uint16(entries) == orientationTag && order.Uint16(entries[2:]) == shortType {
			return knownOrientation(int(order.Uint16(entries[8:])))
		}
		entries = entries[entrySize:]
	}
	return upsideUp
}

func knownOrientation(value int) int {
	if value < 1 || value > orientations {
		return upsideUp
	}
	return value
}

// upright turns and mirrors a picture by its orientation.
func upright(img image.Image, orientation int) image.Image {
	if orientation == upsideUp {
		return img
	}
	bounds := img.Bounds()
	src := image.NewRGBA(image.Rect(0, 0, bounds.Dx(), bounds.Dy()))
	draw.Draw(src, src.Rect, img, bounds.Min, draw.Src)
	width, height := bounds.Dx(), bounds.Dy()
	if orientation >= onItsSide {
		width, height = height, width
	}
	dst := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			from := sourceOf(orientation, x, y, width, height)
			copy(dst.Pix[dst.PixOffset(x, y):][:4], src.Pix[src.PixOffset(from.X, from.Y):][:4])
		}
	}
	return dst
}

// sourceOf is the pixel of the file that is seen at x, y of the upright picture.
func sourceOf(orientation, x, y, width, height int) image.Point {
	right, bottom := width-1-x, height-1-y
	switch orientation {
	case 2:
		return image.Pt(right, y)
	case 3:
		return image.Pt(right, bottom)
	case 4:
		return image.Pt(x, bottom)
	case 5:
		return image.Pt(y, x)
	case 6:
		return image.Pt(y, right)
	case 7:
		return image.Pt(bottom, right)
	default:
		return image.Pt(bottom, x)
	}
}
