package symbol

import "testing"

// In ISO/IEC 15417 the text "345678" in code set C has the check character 73. Its
// eleven modules must be those of the data character "73".
func TestCode128Check(t *testing.T) {
	const character = 11
	s, err := EncodeCode128("345678")
	if err != nil {
		t.Fatal(err)
	}
	if want := (1+3+1)*character + 13; s.Columns != want {
		t.Fatalf("%d modules, want start, three pairs, check and stop: %d", s.Columns, want)
	}
	same, err := EncodeCode128("7373")
	if err != nil {
		t.Fatal(err)
	}
	for i := range character {
		if s.Dark(4*character+i, 0) != same.Dark(character+i, 0) {
			t.Errorf("module %d of the check character is not that of 73", i)
		}
	}
}

func TestCode128Refuses(t *testing.T) {
	for _, text := range []string{"", "12", "123", "12A4", "ñò12", "-100004274"} {
		if _, err := EncodeCode128(text); err == nil {
			t.Errorf("%q was taken", text)
		}
	}
}
