package desk

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"steeltally/inventory"
)

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
