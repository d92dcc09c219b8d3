package symbol

import (
	"strings"

	"github.com/makiuchi-d/gozxing/qrcode/decoder"
)

const (
	largestVersion  = 40
	qrAlphanumerics = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
)

// qrBits is the length of a text in a QR code of a version, with mode and count
// indicators (ISO/IEC 18004, 7.4 and table 3).
func qrBits(text string, version int) int {
	band := 0
	if version > 9 {
		band++
	}
	if version > 26 {
		band++
	}
	const mode = 4
	n := len(text)
	switch {
	case strings.Trim(text, "0123456789") == "":
		return mode + [3]int{10, 12, 14}[band] + n/3*10 + [3]int{0, 4, 7}[n%3]
	case strings.Trim(text, qrAlphanumerics) == "":
		return mode + [3]int{9, 11, 13}[band] + n/2*11 + n%2*6
	default:
		return mode + [3]int{8, 16, 16}[band] + n*8
	}
}

// smallestVersion is the smallest QR version that holds a text at a level, or 0 if
// none does.
func smallestVersion(text string, level Level) int {
	for number := 1; number <= largestVersion; number++ {
		version, err := decoder.Version_GetVersionForNumber(number)
		if err != nil {
			return 0
		}
		corrections := version.GetECBlocksForLevel(libraryLevel(level)).GetTotalECCodewords()
		if qrBits(text, number) <= (version.GetTotalCodewords()-corrections)*8 {
			return number
		}
	}
	return 0
}

// qrModules is the side of a QR code of a version, without its quiet zone.
func qrModules(version int) int { return 17 + 4*version }
