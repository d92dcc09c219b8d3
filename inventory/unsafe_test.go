package inventory

import "testing"

// A tag has to say that a piece is cracked, whatever else it came off for.
func TestReasonThatForbids(t *testing.T) {
	chip, crack, suspect := Damaged{Mode: "chip"}, Damaged{Mode: "crack", Unsafe: true}, Damaged{Mode: modeSuspect, Unsafe: true}
	for _, c := range []struct {
		damages []Damaged
		want    Reason
	}{
		{nil, ""},
		{[]Damaged{chip}, ""},
		{[]Damaged{chip, crack}, "cracked"},
		{[]Damaged{{Mode: "break", Unsafe: true}}, "broken"},
		{[]Damaged{{Mode: "bend", Unsafe: true}}, "bent"},
		{[]Damaged{suspect}, "cracked"},
		{[]Damaged{suspect, {Mode: "break", Unsafe: true}}, "broken"},
	} {
		got := ReasonThatForbids(c.damages)
		if got != c.want {
			t.Errorf("%+v: %q, want %q", c.damages, got, c.want)
		}
		if got != "" && !Why(got).Mode().ForbidsUse() {
			t.Errorf("%q on a tag does not forbid use", got)
		}
	}
}
