package png

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
	"math"

	"steeltally/labels"
)

// Write writes the page as a PNG of one bit a dot that says its resolution.
func Write(w io.Writer, p labels.Page) error {
	picture, err := Draw(p)
	if err != nil {
		return err
	}
	var file bytes.Buffer
	if err := png.Encode(&file, picture); err != nil {
		return err
	}
	_, err = w.Write(withResolution(file.Bytes(), int(p.DPI)))
	return err
}

// A PNG starts with its signature and the header chunk; further chunks follow.
const afterHeader = 8 + 4 + 4 + 13 + 4

const inchesPerMetre = 1 / 0.0254

// withResolution puts a pHYs chunk behind the header (PNG, third edition, 11.3.4.3).
func withResolution(file []byte, dpi int) []byte {
	if len(file) < afterHeader {
		return file
	}
	body := []byte("pHYs")
	perMetre := uint32(math.Round(float64(dpi) * inchesPerMetre))
	body = binary.BigEndian.AppendUint32(body, perMetre)
	body = binary.BigEndian.AppendUint32(body, perMetre)
	body = append(body, 1) // the unit is the metre
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-4))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	return append(append(append([]byte(nil), file[:afterHeader]...), chunk...), file[afterHeader:]...)
}
