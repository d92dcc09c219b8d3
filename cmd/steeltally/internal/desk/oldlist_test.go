package desk

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// endless goes on for ever, and counts what was asked of it.
type endless struct {
	line  string
	given int
}

func (e *endless) Read(into []byte) (int, error) {
	for i := range into {
		into[i] = e.line[(e.given+i)%len(e.line)]
	}
	e.given += len(into)
	return len(into), nil
}

// A list without an end is refused after as many rows as can be entered, and one without
// an end of its line after some megabytes: no clock is needed to tell.
func TestListsWithoutEnd(t *testing.T) {
	for name, c := range map[string]struct {
		start, line, says string
		most              int
	}{
		"rows":       {"Text\n", "17 L III\n", "more than 10000 rows", 1 << 20},
		"wrong rows": {"Text,No\n", "17 L III\n", "more than 10000 rows", 1 << 20},
		"blanks":     {"Text\n", "  \n", "megabytes", mostTextBytes + 1<<20},
		"one cell":   {"Text\n\"", "17 L III\n", "megabytes", mostTextBytes + 1<<20},
		"heading":    {"", "Text,", "megabytes", mostTextBytes + 1<<20},
	} {
		rest := &endless{line: c.line}
		_, err := ReadOldList(OldFile{Rows: io.MultiReader(strings.NewReader(c.start), rest), Columns: map[string]string{"inscription": "Text"}})
		if FailureOf(err) != Mistyped || !strings.Contains(fmt.Sprint(err), c.says) || rest.given > c.most {
			t.Errorf("%s: %v after %d bytes", name, err, rest.given)
		}
	}
	whole := "Text\n" + strings.Repeat("17 L III\n", deeds.MostOld)
	if list, err := ReadOldList(OldFile{Rows: strings.NewReader(whole), Columns: map[string]string{"inscription": "Text"}}); err != nil || list.count() != deeds.MostOld {
		t.Errorf("%d rows: %v", list.count(), err)
	}
}

// Whatever a file holds, reading it ends, rows only grow, and what is taken as a cell is
// a text.
func FuzzReadOldList(f *testing.F) {
	for _, text := range []string{
		"Text,Off\n17 L,2024\n", "\xef\xbb\xbfsep=;\r\nText;Off\r\n17 L;03/04/2025\r\n", "\"sep=|\"\nText|Off\n\"a\nb\"|\n\n|\nx|y|z\n",
		"\xff\xfeT\x00e\x00x\x00t\x00\n\x001\x00", "\xfe\xff\x00T", "Text\n\xf8\n", "PK\x03\x04", "Text\n\"17 L\n", "Text\tText\na\tb\n", "",
	} {
		f.Add([]byte(text), "")
		f.Add([]byte(text), windows1252)
	}
	f.Fuzz(func(t *testing.T, text []byte, encoding string) {
		list, err := ReadOldList(OldFile{Rows: strings.NewReader(string(text)), Encoding: encoding, Columns: map[string]string{"inscription": "Text"}})
		var bad *inventory.BadValue
		if err != nil && !errors.As(err, &bad) {
			t.Errorf("%q: %v", text, err)
		}
		last := 1
		for _, row := range list.rows {
			if row.row <= last || !utf8.ValidString(row.cells["inscription"]) {
				t.Errorf("%q: row %+v after row %d", text, row, last)
			}
			last = row.row
		}
	})
}
