package stats

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// reference reads a published table; its first lines name the source. An empty
// one fails the test.
func reference(t *testing.T, name string) []map[string]string {
	t.Helper()
	path := filepath.Join("..", "..", "..", "testdata", "reference", name)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment, r.TrimLeadingSpace = '#', true
	lines, err := r.ReadAll()
	if err != nil || len(lines) < 2 || text[0] != '#' {
		t.Fatalf("%s: %d lines, %v: want a source line, a heading and rows", name, len(lines), err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, heading := range lines[0] {
			row[heading] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, row map[string]string, heading string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSpace(row[heading]), 64)
	if err != nil {
		t.Fatalf("%s in %v: %v", heading, row, err)
	}
	return v
}

func column(t *testing.T, rows []map[string]string, heading string) []float64 {
	t.Helper()
	values := make([]float64, len(rows))
	for i, row := range rows {
		values[i] = number(t, row, heading)
	}
	return values
}

// same fails unless got agrees with want to the digits that want was given in,
// written as text: half a unit of the last digit, plus the rounding of floating
// point where sixteen digits are given.
func same(t *testing.T, what string, got float64, want string) {
	t.Helper()
	w, err := strconv.ParseFloat(want, 64)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if !(math.Abs(got-w) <= .5000001*lastDigit(want)+2e-15*math.Abs(w)) {
		t.Errorf("%s: got %.16g, want %s", what, got, want)
	}
}

// within fails unless got agrees with want to a relative tolerance.
func within(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: got %.16g, want %.16g", what, got, want)
	}
}

// lastDigit is the worth of the last digit written: "3.20e-5" → 1e-7.
func lastDigit(s string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(s), "e")
	power, _ := strconv.Atoi(exponent)
	if _, decimals, found := strings.Cut(mantissa, "."); found {
		power -= len(decimals)
	}
	return math.Pow(10, float64(power))
}

func TestLastDigit(t *testing.T) {
	for s, want := range map[string]float64{"12": 1, "1.25": .01, "3.20e-5": 1e-7, "-4e3": 1000} {
		if got := lastDigit(s); math.Abs(got-want) > 1e-12*want {
			t.Errorf("last digit of %s is worth %g, want %g", s, got, want)
		}
	}
}
