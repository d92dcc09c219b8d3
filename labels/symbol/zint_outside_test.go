//go:build outside

package symbol

import (
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// contents is how many texts of each sort are held against the independent encoder.
const contents = 1000

// zint, an independent encoder, must make the same modules.
func TestModulesAsZint(t *testing.T) {
	kinds := []struct {
		name    string
		options []string
		encode  func(string) (Symbol, error)
	}{
		{"QR 1-H", []string{"-b", "QRCODE", "--secure=4", "--vers=1"}, func(s string) (Symbol, error) { return EncodeQR(s, "H", 0) }},
		{"QR M", []string{"-b", "QRCODE", "--secure=2"}, func(s string) (Symbol, error) { return EncodeQR(s, "M", 0) }},
		{"Data Matrix square", []string{"-b", "DATAMATRIX", "--square"}, func(s string) (Symbol, error) { return EncodeDataMatrix(s, Square) }},
		{"Data Matrix 8 x 18", []string{"-b", "DATAMATRIX", "--vers=25"}, func(s string) (Symbol, error) { return EncodeDataMatrix(s, Rectangle) }},
		{"Code 128", []string{"-b", "CODE128"}, EncodeCode128},
	}
	for _, kind := range kinds {
		t.Run(kind.name, func(t *testing.T) {
			different := 0
			for i := range contents {
				number := fmt.Sprintf("%d%d%06d%02d", 1+i%9, i%10, (i*7919)%1000000, (i*31)%97)
				s, err := kind.encode(number)
				if err != nil {
					t.Fatal(err)
				}
				if got, want := rows(s), zint(t, number, s, kind.options); got != want {
					different++
					t.Errorf("%s differs from zint's:\n%s\nwant\n%s", number, got, want)
				}
			}
			if different > 0 {
				t.Errorf("%d of %d differ", different, contents)
			}
		})
	}
}

// Tallies hold digits and letters mixed: an encoder may switch between modes where the
// standard leaves it the choice, so zint is held to the alphanumeric mode's length.
func TestTalliesAsZint(t *testing.T) {
	for i := range contents {
		text := fmt.Sprintf("T1.1%d%06d%02d.2.%d.%dL.260112.260128.1190.%d.41.205.32.LOW.%02d", i%10, i*4969%1000000, i%97, 100+i, i%99, 800+i, i%97)
		s, err := EncodeQR(text, "Q", 0)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := rows(s), zint(t, text, s, []string{"-b", "QRCODE", "--secure=3"}); got != want {
			t.Errorf("%s differs from zint's:\n%s\nwant\n%s", text, got, want)
		}
	}
}

// zint runs the encoder and reads its dump: hexadecimal rows, left module first.
func zint(t *testing.T, text string, s Symbol, options []string) string {
	t.Helper()
	out, err := exec.Command("zint", append(options, "--dump", "-d", text)...).Output()
	if err != nil {
		t.Fatalf("zint: %v", err)
	}
	var all strings.Builder
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		var bits strings.Builder
		for _, digit := range strings.ReplaceAll(line, " ", "") {
			value, err := strconv.ParseUint(string(digit), 16, 8)
			if err != nil {
				t.Fatalf("zint's dump %q: %v", line, err)
			}
			fmt.Fprintf(&bits, "%04b", value)
		}
		row := bits.String()
		if len(row) < s.Columns {
			row += strings.Repeat("0", s.Columns-len(row))
		}
		all.WriteString(row[:s.Columns] + "\n")
	}
	return all.String()
}

// rows writes a symbol's modules as zeros and ones.
func rows(s Symbol) string {
	var all strings.Builder
	for row := range s.Rows {
		for column := range s.Columns {
			if s.Dark(column, row) {
				all.WriteByte('1')
			} else {
				all.WriteByte('0')
			}
		}
		all.WriteByte('\n')
	}
	return all.String()
}
