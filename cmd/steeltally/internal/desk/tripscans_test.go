package desk

import "testing"

func TestMayBeTrunk(t *testing.T) {
	for scan, want := range map[string]bool{
		"5100000138": true, "T1-1-39": true, "t1-1-39": true, "B1-4-22": true, "Trunk 9": true, "kist nr. 4": true, "Øst": true,
		"3100000206": false, "P1-2-07": false, "R1-875-75": false, "4006381333931": false, "71": false, "250 rivets": false,
		"https://example.org/x": false, "": false, "#7": false,
	} {
		if got := MayBeTrunk(scan); got != want {
			t.Errorf("%q: %t", scan, got)
		}
	}
}
