package desk

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"
)

// Scans reads scans from a file: one a line, as a hand scanner types them, or all the
// tags of a picture.
func Scans(ctx context.Context, file string) ([]string, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	start := make([]byte, 512)
	n, err := io.ReadFull(f, start)
	if err != nil && n == 0 {
		return nil, fmt.Errorf("%s is empty: scan the tags into it, one a line", file)
	}
	if !isText(start[:n]) {
		photograph, err := ReadPhotograph(ctx, file)
		return photograph.scans(), err
	}
	return ScanLines(io.MultiReader(bytes.NewReader(start[:n]), f), file)
}

// isText tells lines of text from pictures and documents by how they start.
func isText(start []byte) bool {
	if bytes.HasPrefix(start, []byte("%PDF-")) {
		return false
	}
	for len(start) > 0 {
		r, size := utf8.DecodeRune(start)
		switch {
		case r == utf8.RuneError && size == 1:
			return !utf8.FullRune(start) // the piece may end within a letter
		case r < ' ' && !strings.ContainsRune("\t\r\n", r):
			return false
		}
		start = start[size:]
	}
	return true
}

// longestScan is more than any symbol carries.
const longestScan = 64 * 1024

// ScanLines reads scans, one a line; empty lines are left out.
func ScanLines(from io.Reader, name string) ([]string, error) {
	var scans []string
	lines := bufio.NewScanner(from)
	lines.Buffer(nil, longestScan)
	for lines.Scan() {
		if scan := strings.TrimSpace(strings.TrimPrefix(lines.Text(), "\ufeff")); scan != "" {
			scans = append(scans, scan)
		}
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("%s can't be read as lines of text: %w", name, err)
	}
	return scans, nil
}
