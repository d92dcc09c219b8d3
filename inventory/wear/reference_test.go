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
	_, decimals, _ := strings.Cut(want, ".")
	sameTo(t, what, got, want, .5000001*math.Pow(10, -float64(len(decimals))))
}

// sameTo fails unless got agrees with want to a tolerance.
func sameTo(t *testing.T, what string, got float64, want string, tolerance float64) {
	t.Helper()
	w, err := strconv.ParseFloat(want, 64)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if !(math.Abs(got-w) <= tolerance+2e-15*math.Abs(w)) {
		t.Errorf("%s: got %.15g, want %s", what, got, want)
	}
}
