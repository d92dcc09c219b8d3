package inventory_test

import (
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// What a marker pen wrote, and what can be made of it.
func TestReadInscription(t *testing.T) {
	for _, c := range []struct {
		text    string
		sweater int
		side    inventory.Side
		cameOff string
	}{
		{"17 L 11/24", 17, inventory.Left, "Nov 2024"},
		{"17l1124", 17, inventory.Left, "Nov 2024"},
		{"17R324", 17, inventory.Right, "Mar 2024"},
		{"17 R 3-24", 17, inventory.Right, "Mar 2024"},
		{"8 right nov 23", 8, inventory.Right, "Nov 2023"},
		{"R8 NOV23", 8, inventory.Right, "Nov 2023"},
		{"L 31 2024", 31, inventory.Left, "2024"},
		{"31 24", 31, "", "2024"},
		{"17 L 24/25", 17, inventory.Left, "1 Sep 2024 to 31 Aug 2025"},
		{"17L 28.11.24", 17, inventory.Left, "28 Nov 2024"},
		{"17L 11/28/24", 17, inventory.Left, "28 Nov 2024"},
		{"17L281124", 17, inventory.Left, "28 Nov 2024"},
		{"17L 2024-11-28", 17, inventory.Left, "28 Nov 2024"},
		{"17L 28 nov 24", 17, inventory.Left, "28 Nov 2024"},
		{"17L 28nov24", 17, inventory.Left, "28 Nov 2024"},
		{"17L 11/12/24", 17, inventory.Left, "12 Nov 2024 to 11 Dec 2024"}, // read either way
		{"17L 5/5/24", 17, inventory.Left, "5 May 2024"},
		{"17 L", 17, inventory.Left, "date unknown"},
		{"#17 L low", 17, inventory.Left, "date unknown"},
		{"17 L 9.40", 17, inventory.Left, "date unknown"}, // a height, not a month to come
		{"17 L 9.4", 17, inventory.Left, "date unknown"},
		{"17 L 9.4 11/24", 17, inventory.Left, "Nov 2024"},
		{"nov 24", 0, "", "Nov 2024"},
		{"LARS 17", 0, "", "date unknown"},
		{"117 L", 0, "", "date unknown"},
		{"R", 0, inventory.Right, "date unknown"},
		{"17 L 13/24", 17, inventory.Left, "date unknown"},
		{"17 L 31/02/24", 17, inventory.Left, "date unknown"},
		{"", 0, "", "date unknown"},
		{"???", 0, "", "date unknown"},
	} {
		read := inventory.ReadInscription(c.text, inventorytest.Now(), time.UTC)
		if read.Sweater != c.sweater || read.Side != c.side || read.CameOff.SayDay(time.UTC) != c.cameOff {
			t.Errorf("%q: %d, %q, %s; want %d, %q, %s", c.text, read.Sweater, read.Side, read.CameOff.SayDay(time.UTC), c.sweater, c.side, c.cameOff)
		}
	}
}

// Whatever is written, reading it gives nothing that can't be.
func FuzzReadInscription(f *testing.F) {
	for _, seed := range []string{"17 L 11/24", "17l1124", "8 right nov 23", "17L 28.11.24", "24/25", "9999/99/99"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		read := inventory.ReadInscription(text, inventorytest.Now(), time.UTC)
		if read.Sweater < 0 || read.Sweater > inventory.MostSweater {
			t.Errorf("%q: sweater %d", text, read.Sweater)
		}
		if read.CameOff.After(inventorytest.Now()) || read.CameOff.End.Before(read.CameOff.Start) {
			t.Errorf("%q: %s", text, read.CameOff.Say(time.UTC))
		}
	})
}
