package geometry

import "testing"

func TestHollowTable(t *testing.T) {
	rows, err := HollowTable(2.9, 4)
	sound(t, err)
	if len(rows) != 17 || rows[0].Name != "1/4 in" || rows[4].Name != "1/2 in" || rows[16].Name != "1 1/2 in" {
		t.Fatalf("the table is not 1/4 in to 1 in by sixteenths and on to 1 1/2 in by eighths: %d rows", len(rows))
	}
	for i, row := range rows {
		want, err := Hollow(row.Radius, 2.9)
		sound(t, err)
		if row.HollowShape != want {
			t.Errorf("%s: the row differs from the hollow", row.Name)
		}
		near(t, row.Name+" on the other runner", row.EqualBite, row.Radius*4/2.9, 1e-12)
		if i > 0 && row.Radius <= rows[i-1].Radius {
			t.Errorf("%s is out of order", row.Name)
		}
	}
	if half := rows[4]; half.Shop != "11/16 in" {
		t.Errorf("1/2 in on 4 mm: got %s, want 11/16 in", half.Shop)
	}
}

func TestHollowTableLeavesOutWhatCannotBe(t *testing.T) {
	rows, err := HollowTable(20, 2.9)
	sound(t, err)
	if rows[0].Name != "7/16 in" {
		t.Errorf("first hollow for 20 mm steel: got %s, want 7/16 in", rows[0].Name)
	}
	_, err = HollowTable(77, 2.9)
	refused(t, "thicker than every hollow", err)
	for _, bad := range noLengths() {
		_, err = HollowTable(bad, 2.9)
		refused(t, "thickness", err)
		_, err = HollowTable(2.9, bad)
		refused(t, "other thickness", err)
	}
}
