package inventory_test

import (
	"encoding/json"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestCutsAsPeopleTypeThem(t *testing.T) {
	for text, want := range map[string]string{
		"1/2in": "1/2 in", "0.5 in": "1/2 in", "12.7mm": "1/2 in", "5/8\"": "5/8 in", "13mm": "13 mm", "28ft": "28 ft",
		"flat 2.3mm 0.04mm": "2.3 mm flat, 0.04 mm edges",
	} {
		cut, err := inventory.ParseCut(text)
		if err != nil || cut.String() != want {
			t.Errorf("%q is %q, %v, want %q", text, cut, err, want)
		}
	}
	for _, text := range []string{
		"", "1/2", "half", "0mm", "-1/2in", "1mm", "100mm", "1ft", "90ft", "flat", "flat 2mm", "flat 2.3 mm 0.04 mm",
		"flat 0.04mm 2.3mm", "flat 2mm 0mm", "flat 2mm -1mm", "flat 20mm 1mm", "inf", "NaNmm", "1e3mm",
	} {
		if cut, err := inventory.ParseCut(text); err == nil || !cut.Unknown() {
			t.Errorf("%q was read as %q", text, cut)
		}
	}
}

// What is in the record is read again as the same number, whatever a version takes.
func TestCutsGoThroughText(t *testing.T) {
	cuts := []inventory.Cut{{}, {Radius: 12.7}, {Radius: 8534.4}, {Radius: 1}, {Radius: 0.1 + 0.2}, {FlatWidth: 2.3, EdgeHeight: 0.04}, {FlatWidth: 1e-5, EdgeHeight: 1e-6}, {Radius: 1e21}}
	for _, cut := range cuts {
		text := inventorytest.AsJSON(t, cut)
		var again inventory.Cut
		if err := json.Unmarshal([]byte(text), &again); err != nil || again != cut {
			t.Errorf("%s came back as %+v, %v", text, again, err)
		}
	}
	var cut inventory.Cut
	if err := json.Unmarshal([]byte(`"flat 2mm"`), &cut); err == nil {
		t.Errorf("read %+v", cut)
	}
}

func TestProfiles(t *testing.T) {
	profile, err := inventory.ParseProfile("9ft+13ft")
	if err != nil || profile.String() != "9 ft + 13 ft" || len(profile) != 2 {
		t.Fatalf("%v, %v", profile, err)
	}
	metric, _ := inventory.ParseProfile("2743mm + 3962mm")
	if !profile.Equal(metric) || profile.Equal(metric[:1]) || profile.Equal(inventory.Profile{2743, 3900}) {
		t.Error("profiles compare wrongly")
	}
	for _, text := range []string{"", "11", "9ft+", "1ft", "60ft", "+", "ft"} {
		if profile, err := inventory.ParseProfile(text); err == nil {
			t.Errorf("%q was read as %s", text, profile)
		}
	}
	text := inventorytest.AsJSON(t, profile)
	var again inventory.Profile
	if err := json.Unmarshal([]byte(text), &again); err != nil || !again.Equal(profile) || again[0] != profile[0] {
		t.Errorf("%s came back as %v, %v", text, again, err)
	}
}
