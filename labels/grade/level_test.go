package grade

import "testing"

// TestScales holds the thresholds to those of ISO/IEC 15415:2011, as the manuals of
// verifiers give them: at each the better grade, just past it the next.
func TestScales(t *testing.T) {
	for name, s := range map[string]struct {
		scale     scale
		want      [4]float64
		rising    bool
		justPasts float64
	}{
		"contrast":   {contrastScale, [4]float64{0.70, 0.55, 0.40, 0.20}, true, -0.001},
		"modulation": {modulationScale, [4]float64{0.50, 0.40, 0.30, 0.20}, true, -0.001},
		"spare":      {spareScale, [4]float64{0.62, 0.50, 0.37, 0.25}, true, -0.001},
		"axial":      {axialScale, [4]float64{0.06, 0.08, 0.10, 0.12}, false, 0.001},
		"grid":       {gridScale, [4]float64{0.38, 0.50, 0.63, 0.75}, false, 0.001},
	} {
		grade := s.scale.atMost
		if s.rising {
			grade = s.scale.atLeast
		}
		for i, threshold := range s.want {
			if got, past := grade(threshold), grade(threshold+s.justPasts); got != Level(4-i) || past != Level(3-i) {
				t.Errorf("%s %.2f: level %d, just past it %d", name, threshold, got, past)
			}
		}
	}
	letters := ""
	for level := Level(4); level >= -1; level-- {
		letters += level.Letter()
	}
	if letters != "ABCDFF" {
		t.Errorf("the letters are %s", letters)
	}
}

// TestThresholds names the thresholds of every parameter that has a value to grade.
func TestThresholds(t *testing.T) {
	for name, want := range map[string]float64{
		SymbolContrast: 0.70, Modulation: 0.50, AxialUniformity: 0.06,
		GridUniformity: 0.38, UnusedCorrection: 0.62, QuietZone: 0,
	} {
		if got, found := Thresholds(name); !found || got[0] != want {
			t.Errorf("%s: %v, %v", name, got, found)
		}
	}
	if _, found := Thresholds(Decode); found {
		t.Error("decode has thresholds")
	}
}
