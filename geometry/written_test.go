package geometry

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// Others read these keys.
func TestResultsCarryTheirUnits(t *testing.T) {
	hollow, err := Hollow(inches(0.5), 2.9)
	sound(t, err)
	contact, err := ContactOnOneRadius(feet(11), 0, 0.05)
	sound(t, err)
	fit, err := FitCircle(ganderPoints())
	sound(t, err)
	for keys, result := range map[string]any{
		"radius_mm thickness_mm depth_mm edge_angle_deg bite_angle_deg": hollow,
		"contact_mm lowest_mm balance_mm":                               contact,
		"radius_mm centre_x_mm centre_y_mm points residual_mm":          fit,
	} {
		written, err := json.Marshal(result)
		sound(t, err)
		var read map[string]any
		sound(t, json.Unmarshal(written, &read))
		for _, key := range strings.Fields(keys) {
			if _, found := read[key]; !found {
				t.Errorf("no %s in %s", key, written)
			}
		}
	}
}

// wild draws lengths over twenty-four powers of ten, now and then none at all.
func wild(r *rand.Rand) Millimetre {
	switch r.IntN(20) {
	case 0:
		return 0
	case 1:
		return noNumbers()[r.IntN(3)]
	case 2:
		return -Millimetre(math.Exp(30 * r.NormFloat64()))
	case 3:
		return Millimetre(math.Exp(300 * r.NormFloat64()))
	}
	return Millimetre(math.Exp(5 * r.NormFloat64()))
}

// results is everything the package computes, from wild input.
func results(r *rand.Rand) map[string]func() (any, error) {
	w := func() Millimetre { return wild(r) }
	a := func() Degree { return Degree(wild(r)) }
	heights := []HeightAt{{w(), w()}, {w(), w()}, {w(), w()}, {w(), w()}}[:3+r.IntN(2)]
	points := []Point{{w(), w()}, {w(), w()}, {w(), w()}, {w(), w()}, {w(), w()}}[:3+r.IntN(3)]
	return map[string]func() (any, error){
		"chord":     func() (any, error) { return ChordLength(w(), w()) },
		"segment":   func() (any, error) { return SegmentRadius(w(), w()) },
		"height":    func() (any, error) { return SegmentHeight(w(), w()) },
		"hollow":    func() (any, error) { return Hollow(w(), w()) },
		"depth":     func() (any, error) { return HollowFromDepth(w(), w()) },
		"bite":      func() (any, error) { return HollowFromBite(a(), w()) },
		"equal":     func() (any, error) { return EqualBiteHollow(w(), w(), w()) },
		"flat":      func() (any, error) { return FlatBottomedCut(w(), w(), w()) },
		"table":     func() (any, error) { return HollowTable(w(), w()) },
		"offset":    func() (any, error) { return EdgeLevelFromOffset(w(), w(), w()) },
		"level":     func() (any, error) { return EdgeLevelFromDifference(w(), w(), w()) },
		"square":    func() (any, error) { return EdgeLevelFromSquare(w(), w(), a()) },
		"pitch":     func() (any, error) { return Pitch(w(), w(), w()) },
		"contact":   func() (any, error) { return ContactOnOneRadius(w(), a(), w()) },
		"profile":   func() (any, error) { return profileContact(w(), a(), w(), Arc{w(), w()}, Arc{w(), w()}) },
		"points":    func() (any, error) { return FitCircle(points) },
		"linear":    func() (any, error) { return LinearCircle(points) },
		"rocker":    func() (any, error) { return RockerWithDoubt(heights, w(), w()) },
		"wear":      func() (any, error) { return WearMovesBalance(w(), w(), w(), w(), w()) },
		"lean":      func() (any, error) { return LeanToTouch(w(), w(), HolderCorner{w(), w()}) },
		"clearance": func() (any, error) { return ClearanceForLean(w(), w(), w(), a()) },
		"strength":  func() (any, error) { return LeftOfStrength(w(), w()) },
		"modulus":   func() (any, error) { return SectionModulus(w(), w()) },
	}
}

func profileContact(neutral Millimetre, pitch Degree, indentation Millimetre, arcs ...Arc) (any, error) {
	p, err := NewProfile(neutral, arcs...)
	if err != nil {
		return nil, err
	}
	return p.Contact(pitch, indentation)
}

// Whatever goes in, an answer is a number that can be written down (JSON has no
// NaN and no infinity), or an error that says the input was out of range.
func TestNoAnswerIsNotANumber(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 17))
	answered := map[string]int{}
	for range 4000 {
		for what, compute := range results(r) {
			result, err := compute()
			if err != nil {
				refused(t, what, err)
				continue
			}
			answered[what]++
			if _, err := json.Marshal(result); err != nil {
				t.Errorf("%s: %v in %+v", what, err, result)
			}
		}
	}
	for what := range results(r) {
		if answered[what] == 0 {
			t.Errorf("%s was never answered: the check is empty", what)
		}
	}
}
