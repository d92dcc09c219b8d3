package desk

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
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
