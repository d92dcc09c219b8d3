package wear

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// same fails unless got agrees with want to the digits that want is written in.
func same(t *testing.T, what string, got float64, want string) {
	t.Helper()
	w, err := strconv.ParseFloat(want, 64)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	_, decimals, _ := strings.Cut(want, ".")
	if !(math.Abs(got-w) <= .5000001*math.Pow(10, -float64(len(decimals)))) {
		t.Errorf("%s: got %.12g, want %s", what, got, want)
	}
}
