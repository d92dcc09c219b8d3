package geometry

import "testing"

func TestShopLength(t *testing.T) {
	for length, want := range map[Millimetre]string{
		12.7: "1/2 in", 28.575: "1 1/8 in", 3352.8: "11 ft", 3200.4: "10.5 ft", 14.2: "14.20 mm", 9.529: "3/8 in",
		76.2: "3 in", 77.7875: "77.79 mm", 3353: "3353.00 mm", 304.8: "1 ft", 0: "0.00 mm",
	} {
		if got := ShopLength(length); got != want {
			t.Errorf("%g mm: got %q, want %q", float64(length), got, want)
		}
	}
}
