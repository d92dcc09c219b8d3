package desk

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"io"
	"strings"
)

// spreadsheet reads values as spreadsheets save them: parted by commas, or by semicolons
// or tabs where the language has a decimal comma, with or without the mark at the start
// that says that it is Unicode.
func spreadsheet(from io.Reader) *csv.Reader {
	in := bufio.NewReader(from)
	const mark = "\ufeff"
	if start, _ := in.Peek(len(mark)); string(start) == mark {
		in.Discard(len(mark)) // what was peeked at is there
	}
	start, _ := in.Peek(in.Size()) // less where the file is shorter
	heading, _, _ := bytes.Cut(start, []byte("\n"))
	rows := csv.NewReader(in)
	for _, separator := range ";\t" {
		if strings.Count(string(heading), string(separator)) > strings.Count(string(heading), string(rows.Comma)) {
			rows.Comma = separator
		}
	}
	return rows
}

// isBlank tells whether nothing stands in a row.
func isBlank(cells []string) bool { return strings.TrimSpace(strings.Join(cells, "")) == "" }
