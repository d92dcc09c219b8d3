package desk

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"steeltally/inventory"
)

// windows1252 is what spreadsheets of Western Europe and America wrote, and some do.
const windows1252 = "windows-1252"

// TextEncodings are what a person's text file can be written in, besides what the mark
// at its start says.
func TextEncodings() []string { return []string{"utf-8", windows1252} }

// mostTextBytes bounds a person's text file; none of ten thousand lines is as large.
const mostTextBytes = 16 << 20

// readText reads a person's text file as UTF-8, without the mark at its start. UTF-16 is
// known by its mark. What is no UTF-8 comes as it is, for its line or row to be named.
func readText(from io.Reader, encoding string) (io.Reader, error) {
	if encoding != "" && !slices.Contains(TextEncodings(), strings.ToLower(encoding)) {
		return nil, &inventory.BadValue{Reason: fmt.Sprintf("the encoding %q is not known", inventory.Clip(encoding)), Hint: "it is one of " + strings.Join(TextEncodings(), ", ")}
	}
	in := bufio.NewReader(&bounded{from, mostTextBytes})
	start, _ := in.Peek(512) // less where the file is shorter
	switch {
	case bytes.HasPrefix(start, []byte("\xef\xbb\xbf")):
		_, err := in.Discard(3)
		return in, err
	case bytes.HasPrefix(start, []byte("\xff\xfe")), bytes.HasPrefix(start, []byte("\xfe\xff")):
		return unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM).NewDecoder().Reader(in), nil
	case bytes.HasPrefix(start, []byte("PK\x03\x04")):
		return nil, &inventory.BadValue{Reason: "this is a spreadsheet's own file, or another packed one", Hint: "save it as CSV UTF-8 (comma-separated values)"}
	case bytes.IndexByte(start, 0) >= 0:
		return nil, &inventory.BadValue{Reason: "this is no text, or UTF-16 without the mark that says so", Hint: "save it as text or as CSV in UTF-8"}
	case strings.EqualFold(encoding, windows1252):
		return charmap.Windows1252.NewDecoder().Reader(in), nil
	}
	return in, nil
}

// wholeText reads a person's text file that must be UTF-8 from its start to its end.
func wholeText(from io.Reader, encoding string) (string, error) {
	in, err := readText(from, encoding)
	if err != nil {
		return "", err
	}
	whole, err := io.ReadAll(in)
	if err != nil {
		return "", err
	}
	number := 0
	for line := range bytes.Lines(whole) {
		if number++; !utf8.Valid(line) {
			return "", badText(fmt.Sprintf("line %d", number), strings.TrimSpace(string(line)))
		}
	}
	return string(whole), nil
}

// bounded gives an error where a file goes on for too long.
type bounded struct {
	from io.Reader
	left int
}

func (b *bounded) Read(into []byte) (int, error) {
	if b.left <= 0 {
		return 0, &inventory.BadValue{Reason: fmt.Sprintf("the file has more than %d megabytes", mostTextBytes>>20), Hint: "bring it in by parts"}
	}
	n, err := b.from.Read(into[:min(len(into), b.left)])
	b.left -= n
	return n, err
}

// badText says of a line or a row that it is not written in UTF-8.
func badText(where, text string) error {
	return &inventory.BadValue{
		Reason: fmt.Sprintf("%s is not written in UTF-8: %s", where, inventory.Clip(inventory.Visible(text))),
		Hint:   "save the file as text or CSV in UTF-8; where it comes from Windows, --encoding " + windows1252 + " may read it",
	}
}
