package geometry

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// The derivatives of the three-point circle taken with 40 digits and summed in
// squares (mpmath 1.3.0), for a caliper of 0.05 mm and stations of 5 and 1 mm.
func TestRockerDoubtAgainstLongArithmetic(t *testing.T) {
	got, err := RockerWithDoubt(worn(), 0.05, 5)
	sound(t, err)
	near(t, "radius by caliper", got.RadiusDoubt.Caliper, 161.92064, 0.01)
	near(t, "radius by station", got.RadiusDoubt.Station, 260.29427, 0.02)
	near(t, "balance by caliper", got.BalanceDoubt.Caliper, 1.347708, 1e-4)
	near(t, "balance by station", got.BalanceDoubt.Station, 3.4929125, 3e-4)
	near(t, "pitch by caliper", got.PitchDoubt.Caliper, 0.070710678, 1e-6)
	near(t, "pitch by station", got.PitchDoubt.Station, 0.19449114, 2e-5)
	near(t, "total", got.RadiusDoubt.Total, 306.55, 0.02) // √(161.92² + 260.29²)
	finer, err := RockerWithDoubt(worn(), 0.05, 1)
	sound(t, err)
	near(t, "radius by station of 1 mm", finer.RadiusDoubt.Station, 52.058854, 1e-3)
}

// In a shallow arc 1/R is (2·middle − heel − toe)/s², so its error is √6·u/s²,
// and √2·(x·u/R)/s² from stations: a station 5 mm off at 80 mm on a 10 ft
// profile, 0.13 mm of height, costs more than a caliper of 0.05 mm, and the
// answer says so.
func TestTheAnswerKnowsWhatAStationCosts(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(10), 280})
	sound(t, err)
	got, err := RockerWithDoubt(heightsOf(t, p, 0, -80, 0, 80), 0.05, 5)
	sound(t, err)
	squared := feet(10) * feet(10) / 6400
	near(t, "radius by caliper", got.RadiusDoubt.Caliper/squared, Millimetre(0.05*math.Sqrt(6)), 2e-4)
	const falseHeight Millimetre = 0.13127882194216 // 80·5/√(3048² − 80²), 40 digits (mpmath 1.3.0)
	near(t, "radius by station", got.RadiusDoubt.Station/squared, falseHeight*math.Sqrt2, 2e-4)
	if !strings.Contains(got.Meaning(), "the stations cost more than the caliper") {
		t.Errorf("does not say what costs most: %q", got.Meaning())
	}
	careful, err := RockerWithDoubt(heightsOf(t, p, 0, -80, 0, 80), 0.05, 0.5)
	sound(t, err)
	if !strings.Contains(careful.Meaning(), "the caliper costs most") {
		t.Errorf("does not say what costs most: %q", careful.Meaning())
	}
}

// Measured over and over with such errors, 1/R, balance point and pitch scatter
// as much as the doubt says, and the range holds 1/R in 95 of 100.
func TestRockerDoubtIsTheScatter(t *testing.T) {
	const runs = 4000
	r := rand.New(rand.NewPCG(10, 14))
	p, err := NewProfile(5, Arc{feet(10), 280})
	sound(t, err)
	true5 := heightsOf(t, p, 0, -80, -40, 0, 40, 80)
	want, err := RockerWithDoubt(true5, 0.05, 2)
	sound(t, err)
	var bend, balance, pitch, held, misfit float64
	for range runs {
		noisy := append([]HeightAt(nil), true5...)
		for i := range noisy {
			// Measured at the true stations missed by 2 mm, noted as if not.
			rise := p.riseAt(noisy[i].Station + Millimetre(2*r.NormFloat64()))
			noisy[i].Height = 22 - rise + Millimetre(0.05*r.NormFloat64())
		}
		got, err := RockerWithDoubt(noisy, 0.05, 2)
		sound(t, err)
		bend += math.Pow(float64(1/got.Radius-1/feet(10)), 2)
		balance += math.Pow(float64(got.BalancePoint-5), 2)
		pitch += math.Pow(float64(got.HeelMinusToe-want.HeelMinusToe), 2)
		misfit += got.Misfit * got.Misfit
		if got.RadiusLow < feet(10) && (got.RadiusHigh == 0 || got.RadiusHigh > feet(10)) {
			held++
		}
	}
	rms := func(sum float64) Millimetre { return Millimetre(math.Sqrt(sum / runs)) }
	near(t, "scatter of 1/R against the doubt", rms(bend)/(want.RadiusDoubt.Total/feet(10)/feet(10)), 1, 0.04)
	near(t, "scatter of the balance point", rms(balance)/want.BalanceDoubt.Total, 1, 0.05)
	near(t, "scatter of the pitch", rms(pitch)/want.PitchDoubt.Total, 1, 0.04)
	near(t, "mean square of the misfit", misfit/runs, 1, 0.1)
	near(t, "share of ranges that hold the radius", held/runs, 0.954, 0.015)
}

func TestRockerDoubtGrowsWithTheErrors(t *testing.T) {
	last := RockerDoubt{}
	for _, error := range []Millimetre{0, 0.01, 0.03, 0.1} {
		got, err := RockerWithDoubt(worn(), error, 10*error)
		sound(t, err)
		if error > 0 && !(got.RadiusDoubt.Total > last.RadiusDoubt.Total && got.RadiusLow < last.RadiusLow) {
			t.Errorf("doubt does not grow at %v", error)
		}
		if got.Rocker != mustRocker(t, worn()) {
			t.Errorf("the doubt changed the answer at %v", error)
		}
		last = got
	}
}

func mustRocker(t *testing.T, heights []HeightAt) Rocker {
	t.Helper()
	rocker, err := RockerFromHeights(heights)
	sound(t, err)
	return rocker
}

// Without errors there is no doubt, and the range is the radius.
func TestRockerWithoutErrors(t *testing.T) {
	got, err := RockerWithDoubt(worn(), 0, 0)
	sound(t, err)
	near(t, "doubt", got.RadiusDoubt.Total, 0, 0)
	near(t, "low", got.RadiusLow, got.Radius, 1e-9)
	near(t, "high", got.RadiusHigh, got.Radius, 1e-9)
}

// A coarse caliper on heights close together cannot tell a curve from a line.
func TestRockerMayAsWellBeFlat(t *testing.T) {
	got, err := RockerWithDoubt([]HeightAt{{-30, 21.35}, {0, 21.5}, {30, 21.35}}, 0.1, 0)
	sound(t, err)
	if got.RadiusHigh != 0 {
		t.Errorf("claims to know the radius to %v", got.RadiusHigh)
	}
	if !strings.Contains(got.Meaning(), "can't say more") {
		t.Errorf("does not own up: %q", got.Meaning())
	}
	_, err = RockerWithDoubt([]HeightAt{{-30, 21.4999}, {0, 21.5}, {30, 21.4999}}, 0.1, 0)
	refused(t, "an error that hides the curve", err)
}

func TestRockerDoubtRefuses(t *testing.T) {
	for _, bad := range noLengths()[:4] {
		_, err := RockerWithDoubt(worn(), bad, 1)
		refused(t, "caliper error", err)
		_, err = RockerWithDoubt(worn(), 0.05, bad)
		refused(t, "station error", err)
	}
	_, err := RockerWithDoubt(worn()[:2], 0.05, 1)
	refused(t, "two heights", err)
}
