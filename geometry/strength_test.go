package geometry

import (
	"strings"
	"testing"
)

func TestSectionOfARunner(t *testing.T) {
	modulus, err := SectionModulus(2.9, 10)
	sound(t, err)
	near(t, "b·h²/6 of 2.9 × 10 mm", modulus, 48.3333, 5e-5)
}

// Section properties of dressed timber on edge, inches, as the NDS Supplement's
// Table 1B prints them (from memory): the same formulas for the same rectangle.
func TestSectionsOfTimberTables(t *testing.T) {
	for _, row := range []struct {
		thickness, height Millimetre
		modulus, moment   CubicMillimetre
	}{
		{1.5, 3.5, 3.063, 5.359},
		{1.5, 5.5, 7.563, 20.80},
		{1.5, 9.25, 21.39, 98.93},
		{1.5, 11.25, 31.64, 178.0},
	} {
		modulus, err := SectionModulus(row.thickness, row.height)
		sound(t, err)
		near(t, "section modulus", modulus/row.modulus, 1, 5e-4)
		near(t, "second moment, modulus times half the height", modulus*CubicMillimetre(row.height/2)/row.moment, 1, 5e-4)
	}
}

func TestStrengthLeftIsTheRatioOfSections(t *testing.T) {
	for height := Millimetre(1); height <= 30; height += 0.7 {
		left, err := LeftOfStrength(height, 30)
		sound(t, err)
		worn, err := SectionModulus(2.9, height)
		sound(t, err)
		fresh, err := SectionModulus(2.9, 30)
		sound(t, err)
		near(t, "strength", left.Strength, float64(worn/fresh), 1e-14)
		near(t, "stiffness, as the second moments", left.Stiffness, float64(worn*CubicMillimetre(height)/(fresh*30)), 1e-14)
		near(t, "sideways", left.Sideways, float64(height/30), 1e-14)
	}
}

func TestStrengthLeftLimits(t *testing.T) {
	fresh, err := LeftOfStrength(30, 30)
	sound(t, err)
	if fresh.Strength != 1 || fresh.Stiffness != 1 || fresh.Sideways != 1 {
		t.Errorf("a new runner has not all of it: %+v", fresh)
	}
	half, err := LeftOfStrength(15, 30)
	sound(t, err)
	if half.Strength != 0.25 || half.Stiffness != 0.125 || half.Sideways != 0.5 {
		t.Errorf("half the height: %+v", half)
	}
}

func TestStrengthRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := SectionModulus(bad, 10)
		refused(t, "thickness", err)
		_, err = LeftOfStrength(bad, 30)
		refused(t, "height", err)
		_, err = LeftOfStrength(20, bad)
		refused(t, "height new", err)
	}
	_, err := LeftOfStrength(30.1, 30)
	refused(t, "a runner that grew", err)
}

func TestStrengthMeaningDefers(t *testing.T) {
	left, err := LeftOfStrength(24, 30)
	sound(t, err)
	m := left.Meaning()
	if !strings.HasPrefix(m, "The steel bears 64 % of what it bore new and is 51 % as stiff. ") || !strings.HasSuffix(m, StrengthCaution) {
		t.Errorf("got %q", m)
	}
}
