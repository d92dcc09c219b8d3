package desk

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"steeltally/labels/symbol"
)

// Scans reads scans from a file of some name: one a line, as a hand scanner types them, or
// all the tags of a picture.
func Scans(ctx context.Context, from io.Reader, name string) ([]string, error) {
	start := make([]byte, 512)
	n, err := io.ReadFull(from, start)
	if err == io.EOF {
		return nil, fmt.Errorf("%s is empty: scan the tags into it, one a line", name)
	}
	if err != nil && err != io.ErrUnexpectedEOF {
		return nil, fmt.Errorf("%s can't be read: %w", name, err)
	}
	whole := io.MultiReader(bytes.NewReader(start[:n]), from)
	if !isText(start[:n]) {
		return ReadPicture(ctx, whole, name)
	}
	return ScanLines(whole, name)
}

// isText tells lines of text from pictures and documents by how they start: these have
// bytes that no text has. In which encoding it is written does not matter here.
func isText(start []byte) bool {
	starts := func(with string) bool { return bytes.HasPrefix(start, []byte(with)) }
	control := func(r rune) bool { return r < ' ' && !strings.ContainsRune("\t\r\n", r) }
	switch {
	case starts("\xff\xfe"), starts("\xfe\xff"):
		return true // UTF-16
	case starts("%PDF-"), starts("\xff\xd8"):
		return false // a document, or a JPEG
	}
	return !bytes.ContainsFunc(start, control)
}

// longestScan is more than any symbol carries.
const longestScan = 64 * 1024

// ScanLines reads scans, one a line; empty lines are left out.
func ScanLines(from io.Reader, name string) ([]string, error) {
	text, err := readText(from, "")
	if err != nil {
		return nil, err
	}
	var scans []string
	lines := bufio.NewScanner(text)
	lines.Buffer(nil, longestScan)
	for line := 1; lines.Scan(); line++ {
		scan := strings.TrimSpace(lines.Text())
		if !utf8.ValidString(scan) {
			return nil, badText(fmt.Sprintf("line %d of %s", line, name), scan)
		}
		if scan != "" {
			scans = append(scans, scan)
		}
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("%s can't be read as lines of text: %w", name, err)
	}
	return scans, nil
}

// TestCode is a code with which a scanner is tested. None is the number of anything.
type TestCode struct {
	Title  string
	Text   string
	symbol symbol.Symbol
}

// TestCodes are the three: each of the symbologies that tags carry, with every character
// that they use.
func TestCodes() ([]TestCode, error) {
	matrix, err := symbol.EncodeDataMatrix("0123456789", symbol.Square)
	if err != nil {
		return nil, err
	}
	qr, err := symbol.EncodeQR("ABCDEFGHIJKLMNOPQRSTUVWXYZ.1357924680", "M", 0)
	if err != nil {
		return nil, err
	}
	bars, err := symbol.EncodeCode128("9876543210")
	if err != nil {
		return nil, err
	}
	return []TestCode{testCode("digits", matrix), testCode("letters, a full stop and digits", qr), testCode("digits", bars)}, nil
}

func testCode(what string, s symbol.Symbol) TestCode {
	return TestCode{s.Symbology.Title() + ", " + what, s.Text, s}
}

// barHeight is how high the bars of a Code 128 are drawn, in modules.
const barHeight = 24

// size is the code with its quiet zone, in modules.
func (c TestCode) size() (sides, above, width, height int) {
	sides, above = c.symbol.Quiet()
	width, height = c.symbol.Columns+2*sides, c.symbol.Rows+2*above
	if c.symbol.Symbology == symbol.Code128 {
		height = barHeight
	}
	return sides, above, width, height
}

// SVG draws the code black on white, with its quiet zone.
func (c TestCode) SVG() string {
	sides, above, width, height := c.size()
	var svg strings.Builder
	fmt.Fprintf(&svg, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" role="img" aria-label="%s" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="`, width, height, c.Title, width, height)
	for _, r := range c.symbol.Rects() {
		high := int(r.Height)
		if c.symbol.Symbology == symbol.Code128 {
			high = barHeight
		}
		fmt.Fprintf(&svg, "M%d %dh%dv%dh-%dz", int(r.X)+sides, int(r.Y)+above, int(r.Width), high, int(r.Width))
	}
	svg.WriteString(`"/></svg>`)
	return svg.String()
}

// Blocks draws the code for a terminal, black on white: two modules in each character,
// one above the other, or side by side where it is bars.
func (c TestCode) Blocks() []string {
	const black, end = "\x1b[30;107m", "\x1b[0m"
	var lines []string
	for _, row := range c.blocks() {
		lines = append(lines, black+row+end)
	}
	return lines
}

func (c TestCode) blocks() []string {
	sides, above, width, height := c.size()
	if c.symbol.Symbology == symbol.Code128 {
		row := block(" ▐▌█", width, func(x int) (bool, bool) {
			return c.symbol.Dark(2*x-sides, 0), c.symbol.Dark(2*x+1-sides, 0)
		}, 2)
		const rows = 5
		return strings.Split(strings.TrimSuffix(strings.Repeat(row+"\n", rows), "\n"), "\n")
	}
	var rows []string
	for y := 0; y < height; y += 2 {
		rows = append(rows, block(" ▄▀█", width, func(x int) (bool, bool) {
			return c.symbol.Dark(x-sides, y-above), c.symbol.Dark(x-sides, y+1-above)
		}, 1))
	}
	return rows
}

// block is a line of characters that stand for none, the second, the first or both of two
// modules; so many modules of the width lie in one.
func block(signs string, width int, dark func(x int) (first, second bool), modules int) string {
	four := []rune(signs)
	var row strings.Builder
	for x := range (width + modules - 1) / modules {
		sign := 0
		first, second := dark(x)
		if first {
			sign += 2
		}
		if second {
			sign++
		}
		row.WriteRune(four[sign])
	}
	return row.String()
}
