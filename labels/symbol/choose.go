package symbol

import (
	"errors"
	"fmt"
	"strings"

	"github.com/makiuchi-d/gozxing/qrcode/decoder"

	"steeltally/geometry"
)

// Dots a module: DesignDots is what a tag is designed for, LeastDots what a thermal
// printer still prints cleanly (common practice, no source).
const (
	DesignDots geometry.Dot = 3
	LeastDots  geometry.Dot = 2
)

// Request is what a symbol must carry and the room there is for it.
type Request struct {
	Text          string
	Width, Height geometry.Dot // the room, quiet zone included
	Prefer        []Symbology  // most wanted first
	LeastLevel    Level        // weakest error correction taken for a QR; empty is M
}

// Choice is a symbol with the size of its modules, and why it was chosen.
type Choice struct {
	Symbol  Symbol
	Dots    geometry.Dot // a module's side
	Width   geometry.Dot // with quiet zone
	Height  geometry.Dot // with quiet zone
	Reasons []string
}

// candidate is a symbol that could be made, before it is made.
type candidate struct {
	name          string
	width, height int // modules, with quiet zone
	level         Level
	make          func() (Symbol, error)
}

// ErrNoRoom says that no wanted symbol can be drawn in the room, even at LeastDots.
var ErrNoRoom = errors.New("no room for a symbol")

// Choose takes the first wanted symbology that fits at DesignDots, or else the first
// that fits at LeastDots. Within a symbology it takes the largest modules, then the
// highest error correction that keeps them.
func Choose(r Request) (Choice, error) {
	if err := checkText(r.Text); err != nil {
		return Choice{}, err
	}
	var reasons, shortfalls []string
	for _, least := range []geometry.Dot{DesignDots, LeastDots} {
		for _, kind := range r.Prefer {
			options, err := candidates(r, kind)
			if err != nil {
				shortfalls = append(shortfalls, err.Error())
				continue
			}
			best, dots := largest(options, r.Width, r.Height)
			if dots >= least {
				return finish(best, dots, r, append(reasons, explain(options, r)...))
			}
			reasons = append(reasons, fmt.Sprintf("%s does not fit at %d dots a module", kind.Title(), least))
			shortfalls = append(shortfalls, wouldFit(options))
		}
	}
	return Choice{}, fmt.Errorf("%w of %d x %d dots: %s", ErrNoRoom, r.Width, r.Height, strings.Join(unique(shortfalls), "; "))
}

// checkText refuses what readers that type like a keyboard cannot type.
func checkText(text string) error {
	if text == "" {
		return ErrNoText
	}
	for _, r := range text {
		if r < ' ' || r > '~' {
			return fmt.Errorf("a symbol takes plain letters, digits and signs (ASCII), not %q", r)
		}
	}
	return nil
}

// candidates lists the forms of one symbology that can carry the text.
func candidates(r Request, kind Symbology) ([]candidate, error) {
	switch kind {
	case QR:
		return qrCandidates(r)
	case DataMatrix:
		return dataMatrixCandidates(r)
	case Code128:
		return code128Candidates(r)
	}
	return nil, fmt.Errorf("%q is not a symbology: use %s, %s or %s", kind, QR, DataMatrix, Code128)
}

// largest is the candidate with the largest modules; among equals a stronger level,
// then an earlier place in the list.
func largest(options []candidate, width, height geometry.Dot) (candidate, geometry.Dot) {
	best, most := candidate{}, geometry.Dot(0)
	for _, c := range options {
		dots := min(width/geometry.Dot(c.width), height/geometry.Dot(c.height))
		if dots > most || dots == most && dots > 0 && c.level.rank() > best.level.rank() {
			best, most = c, dots
		}
	}
	return best, most
}

// finish makes the chosen symbol.
func finish(c candidate, dots geometry.Dot, r Request, reasons []string) (Choice, error) {
	s, err := c.make()
	if err != nil {
		return Choice{}, err
	}
	width, height := s.Area(dots)
	if s.Symbology == Code128 {
		height = r.Height
	}
	reasons = append(reasons, fmt.Sprintf("taken: %s at %d dots a module", c.name, dots))
	return Choice{Symbol: s, Dots: dots, Width: width, Height: height, Reasons: reasons}, nil
}

// explain says for each form how large its modules could be.
func explain(options []candidate, r Request) []string {
	var lines []string
	for _, c := range options {
		dots := min(r.Width/geometry.Dot(c.width), r.Height/geometry.Dot(c.height))
		lines = append(lines, fmt.Sprintf("%s, %d x %d modules with quiet zone: %d dots a module in %d x %d dots",
			c.name, c.width, c.height, dots, r.Width, r.Height))
	}
	return lines
}

// wouldFit says what room the smallest form needs at LeastDots.
func wouldFit(options []candidate) string {
	least := options[0]
	for _, c := range options {
		if c.width*c.height < least.width*least.height {
			least = c
		}
	}
	return fmt.Sprintf("%s needs %d x %d dots at %d dots a module",
		least.name, geometry.Dot(least.width)*LeastDots, geometry.Dot(least.height)*LeastDots, LeastDots)
}

// unique drops repeated lines and keeps the order.
func unique(lines []string) []string {
	seen := map[string]bool{}
	var kept []string
	for _, line := range lines {
		if !seen[line] {
			seen[line] = true
			kept = append(kept, line)
		}
	}
	return kept
}

// leastCode128Height is the least height of a Code 128 as a part of its length: 15 %
// (ISO/IEC 15417, recommendation for hand-held reading).
const leastCode128Height = 0.15

// qrCandidates are the smallest QR codes at each error correction level allowed.
func qrCandidates(r Request) ([]candidate, error) {
	least := r.LeastLevel
	if least == "" {
		least = "M"
	}
	var found []candidate
	for _, level := range Levels()[max(least.rank(), 0):] {
		version := smallestVersion(r.Text, level)
		if version == 0 {
			continue
		}
		side := qrModules(version) + 2*QR.QuietZone()
		found = append(found, candidate{
			name:  fmt.Sprintf("QR %d-%s", version, level),
			width: side, height: side, level: level,
			make: func() (Symbol, error) { return EncodeQR(r.Text, level, version) },
		})
	}
	if found == nil {
		return nil, fmt.Errorf("%d characters are too many for a QR at level %s", len(r.Text), least)
	}
	return found, nil
}

// dataMatrixCandidates are the smallest square and, if there is one, rectangle.
func dataMatrixCandidates(r Request) ([]candidate, error) {
	square, err := EncodeDataMatrix(r.Text, Square)
	if err != nil {
		return nil, err
	}
	found := []candidate{made(square)}
	if rectangle, err := EncodeDataMatrix(r.Text, Rectangle); err == nil {
		found = append(found, made(rectangle))
	}
	return found, nil
}

// code128Candidates is the one Code 128 of the text, as high as it must be.
func code128Candidates(r Request) ([]candidate, error) {
	s, err := EncodeCode128(r.Text)
	if err != nil {
		return nil, err
	}
	c := made(s)
	c.height = int(float64(s.Columns)*leastCode128Height + 1)
	return []candidate{c}, nil
}

// made is a candidate whose symbol is there already.
func made(s Symbol) candidate {
	sides, above := s.Quiet()
	name := fmt.Sprintf("%s %d x %d", s.Symbology.Title(), s.Rows, s.Columns)
	return candidate{
		name: name, width: s.Columns + 2*sides, height: s.Rows + 2*above,
		make: func() (Symbol, error) { return s, nil },
	}
}

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
