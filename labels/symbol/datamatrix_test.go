package symbol

import "testing"

// The worked example of ISO/IEC 16022: "123456" in 10 x 10 modules.
func TestDataMatrixWorkedExample(t *testing.T) {
	want := []uint16{0xAA8, 0xCB4, 0xC10, 0xC74, 0xC20, 0x83C, 0xEC0, 0xF64, 0x9D0, 0xFFC}
	s, err := EncodeDataMatrix("123456", Square)
	if err != nil {
		t.Fatal(err)
	}
	if s.Columns != 10 || s.Rows != 10 {
		t.Fatalf("%d x %d modules, want 10 x 10", s.Columns, s.Rows)
	}
	for row, bits := range want {
		for column := range 10 {
			if dark := bits&(1<<(11-column)) != 0; s.Dark(column, row) != dark {
				t.Errorf("module %d in row %d: dark %v, want %v", column, row, !dark, dark)
			}
		}
	}
}

// Ten digits fill a square of 12 x 12 and a rectangle of 8 x 18 (ISO/IEC 16022,
// table 7: five codewords each).
func TestDataMatrixOfANumber(t *testing.T) {
	for shape, want := range map[Shape][2]int{Square: {12, 12}, Rectangle: {18, 8}} {
		s, err := EncodeDataMatrix("1000042744", shape)
		if err != nil {
			t.Fatal(err)
		}
		if s.Columns != want[0] || s.Rows != want[1] {
			t.Errorf("%d x %d modules, want %d x %d", s.Columns, s.Rows, want[0], want[1])
		}
	}
}

func TestDataMatrixRefuses(t *testing.T) {
	if _, err := EncodeDataMatrix("", Square); err == nil {
		t.Error("an empty text was taken")
	}
	if _, err := EncodeDataMatrix(string(make([]byte, 4000)), Square); err == nil {
		t.Error("4,000 bytes were taken")
	}
}
