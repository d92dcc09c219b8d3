package desk

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
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

// spreadsheet reads values as spreadsheets save them: parted by commas, or by semicolons
// or tabs where the language has a decimal comma, or by what the file's first line says
// ("sep=;").
type spreadsheet struct {
	rows   *csv.Reader
	within int // ends of lines within cells so far: a row of those has several lines
}

func readSpreadsheet(from io.Reader, encoding string) (*spreadsheet, error) {
	plain, err := readText(from, encoding)
	if err != nil {
		return nil, err
	}
	in := bufio.NewReader(plain)
	said, err := saidSeparator(in)
	if err != nil {
		return nil, err
	}
	start, _ := in.Peek(in.Size()) // less where the file is shorter
	heading, _, _ := bytes.Cut(start, []byte("\n"))
	rows := csv.NewReader(in)
	for _, separator := range ";\t" {
		if strings.Count(string(heading), string(separator)) > strings.Count(string(heading), string(rows.Comma)) {
			rows.Comma = separator
		}
	}
	if said != 0 {
		rows.Comma = said
	}
	return &spreadsheet{rows: rows}, nil
}

// saidSeparator takes off a first line that says what parts the values; no row to a
// spreadsheet. Zero: there is no such line.
func saidSeparator(in *bufio.Reader) (rune, error) {
	const most = len(`"sep=;"`) + len("\r\n")
	start, _ := in.Peek(most)
	line, _, ended := strings.Cut(string(start), "\n")
	said := strings.ToLower(strings.Trim(line, "\"\r"))
	if !strings.HasPrefix(said, "sep=") {
		return 0, nil
	}
	separator, rest := utf8.DecodeRuneInString(said[len("sep="):])
	if !ended || rest != len(said)-len("sep=") || !strings.ContainsRune(",;\t|", separator) {
		return 0, &inventory.BadValue{Reason: fmt.Sprintf("the first line says that %q parts the values", inventory.Clip(line)), Hint: "save the list with commas, semicolons or tabs between the values"}
	}
	_, err := in.Discard(len(line) + len("\n"))
	return separator, err
}

// next reads a row and tells which one it is, as a spreadsheet counts. A *RowError is
// about this row alone; any other error ends the reading, io.EOF at its end.
func (s *spreadsheet) next() (row int, cells []string, err error) {
	cells, err = s.rows.Read()
	var parse *csv.ParseError
	if err != nil && !errors.As(err, &parse) {
		return 0, nil, err
	}
	if parse != nil && !errors.Is(err, csv.ErrFieldCount) {
		row = parse.StartLine - s.within
		s.within += parse.Line - parse.StartLine
		return row, nil, &RowError{Row: row, Reason: parse.Err.Error()}
	}
	line, _ := s.rows.FieldPos(0)
	row = line - s.within
	s.within += strings.Count(strings.Join(cells, ""), "\n")
	if parse != nil {
		return row, nil, &RowError{Row: row, Reason: "it has not as many cells as the first row", Hint: "a cell with the separator in it stands in quotation marks"}
	}
	for _, cell := range cells {
		if !utf8.ValidString(cell) {
			return row, nil, rowError(row, badText("it", cell))
		}
	}
	return row, cells, nil
}

// isBlank tells whether nothing stands in a row.
func isBlank(cells []string) bool { return strings.TrimSpace(strings.Join(cells, "")) == "" }

// RowError is what is wrong with one row, counted as a spreadsheet does.
type RowError struct {
	Row    int    `json:"row"`
	Reason string `json:"reason"`
	Hint   string `json:"hint,omitempty"`
}

func (e *RowError) Error() string { return fmt.Sprintf("row %d: %s", e.Row, e.Reason) }

func rowError(row int, err error) *RowError { return &RowError{row, err.Error(), HintOf(err)} }
