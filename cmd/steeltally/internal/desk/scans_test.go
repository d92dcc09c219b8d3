package desk

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"steeltally/labels/reader"
)

func scanFile(t *testing.T, content string) ([]string, error) {
	t.Helper()
	return Scans(context.Background(), strings.NewReader(content), "scans")
}

// Lines are taken as whatever typed them wrote them: by an editor with a mark at the
// start, with either line end, with blanks, with letters of any script.
func TestScansOfLines(t *testing.T) {
	long := strings.Repeat("x", 600) // past the first piece that is looked at
	for content, want := range map[string][]string{
		"1100000177\n1100000274\n":             {"1100000177", "1100000274"},
		"\ufeff1100000177\r\n\r\n 1100000274":  {"1100000177", "1100000274"},
		strings.Repeat("å", 300) + "\n" + long: {strings.Repeat("å", 300), long},
		"\xff\xfe1\x007\x00\r\x00\n\x00A\x00":  {"17", "A"},
		"\xfe\xff\x001\x007":                   {"17"},
		"\n\n":                                 nil,
	} {
		got, err := scanFile(t, content)
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%.20q: %q, %v", content, got, err)
		}
	}
}

// What is neither lines nor a picture says what it is.
func TestScansOfOtherFiles(t *testing.T) {
	for content, want := range map[string]error{
		"\x89PNG\r\n\x1a\nxx":          reader.ErrBroken,
		"\xff\xd8\xff\xe0":             reader.ErrBroken,
		"%PDF-1.7\n%\xe2\xe3\n":        reader.ErrPDF,
		"\x00\x00\x00\x18ftypheic\x00": reader.ErrPhoneFormat,
		"\x7fELF\x02\x01\x01\x00":      reader.ErrUnknown,
	} {
		if got, err := scanFile(t, content); !errors.Is(err, want) {
			t.Errorf("%.20q: %q, %v; want %v", content, got, err, want)
		}
	}
	if _, err := scanFile(t, "1100000177\nBj\xf8rn\n"); FailureOf(err) != Mistyped || !strings.Contains(err.Error(), "line 2 of") || !strings.Contains(err.Error(), `Bj\xf8rn`) {
		t.Errorf("Windows-1252: %v", err)
	}
	if _, err := scanFile(t, ""); err == nil || !strings.Contains(err.Error(), "is empty") {
		t.Errorf("an empty file: %v", err)
	}
	if _, err := scanFile(t, strings.Repeat("x", longestScan+1)); err == nil || !strings.Contains(err.Error(), "lines of text") {
		t.Errorf("an endless line: %v", err)
	}
}
