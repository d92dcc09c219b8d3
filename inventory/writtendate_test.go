package inventory_test

import (
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestParseDate(t *testing.T) {
	for _, c := range []struct {
		text  string
		order string
		want  string // empty: it is refused
	}{
		{"03/04/2025", "", ""}, {"03/04/2025", "dmy", "3 Apr 2025"}, {"03/04/2025", "mdy", "4 Mar 2025"},
		{"3.4.25", "", ""}, {"3.4.25", "dmy", "3 Apr 2025"}, {"13.4.25", "", "13 Apr 2025"}, {"24.11.", "", "24 Nov 2025"}, {"11/24", "", ""}, {"11/24", "my", "Nov 2024"}, {"28 Nov 24", "", "28 Nov 2024"}, {"nov 24", "", "Nov 2024"}, {"24/25", "", "1 Sep 2024 to 31 Aug 2025"}, {"13-4-25", "", ""},
		{"24.11.2024", "", "24 Nov 2024"}, {"11/24/2024", "", "24 Nov 2024"}, {"04-04-2025", "", "4 Apr 2025"},
		{"24/11/2024", "mdy", ""}, {"11/24/2024", "dmy", ""}, {"30/2/2025", "dmy", ""}, {"13/13/2025", "", ""}, {"0/4/2025", "dmy", ""},
		{"3. 4. 2025", "dmy", "3 Apr 2025"}, {"03/04/2025 00:00", "dmy", "3 Apr 2025"}, {"03/04/2025 0:00:00", "mdy", "4 Mar 2025"},
		{"03/04/1889", "dmy", ""}, {"03/04/2525", "dmy", ""}, {"03/04/2025 12:30", "dmy", ""},
		{"2024-11-03", "mdy", "3 Nov 2024"}, {"2024-11", "dmy", "Nov 2024"}, {"2024/25", "", "1 Sep 2024 to 31 Aug 2025"}, {"unknown", "dmy", "date unknown"},
		{"45597", "dmy", ""}, {"3 April", "dmy", "3 Apr 2025"}, {"24.11.27", "", ""},
	} {
		hand, err := inventory.ParseDateOrders(c.order)
		if err != nil {
			t.Fatal(err)
		}
		when, err := inventory.ParseDate(c.text, hand, inventorytest.Now(), time.UTC)
		if got := when.Say(time.UTC); err == nil && got != c.want || err != nil && c.want != "" {
			t.Errorf("%q with %q is %s, %v, want %q", c.text, c.order, got, err, c.want)
		}
	}
}
