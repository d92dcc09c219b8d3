package wear

import (
	"math"
	"testing"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

// exampleQuestion is the reference example: a runner with heights after 60,
// 120, 180 … passes.
func exampleQuestion(heights ...geometry.Millimetre) Question {
	s := Segment{New: stats.Estimate{Value: 21, Variance: .25 * .25}, CaliperVariance: .0036}
	for i, h := range heights {
		s.Readings = append(s.Readings, Reading{60 * float64(i+1), h})
	}
	return Question{
		Prior:  Prior{Mean: math.Log(.019), Scale: .15, Freedom: 12},
		Own:    []Segment{s},
		Change: 15.5,
	}
}

func exampleConstants() Constants {
	c := Defaults()
	c.Unevenness = .1125
	return c
}

// Values: the project's reference table, computed with R 4.2.2.
func TestPassesLeftReferenceExample(t *testing.T) {
	for _, c := range []struct {
		heights []geometry.Millimetre
		want    [3]string
	}{
		{nil, [3]string{"233.5333", "289.2556", "357.9201"}},
		{[]geometry.Millimetre{19.8}, [3]string{"189.6963", "224.1351", "266.4768"}},
		{[]geometry.Millimetre{19.8, 18.7, 17.5}, [3]string{"95.8585", "105.1064", "115.1452"}},
		{[]geometry.Millimetre{19.8, 81.7, 17.5}, [3]string{"94.9628", "104.3531", "114.5300"}},
	} {
		f, err := exampleConstants().Forecast(exampleQuestion(c.heights...))
		if err != nil {
			t.Fatal(err)
		}
		for i, chance := range []float64{.1, .5, .9} {
			got, err := f.PassesLeft(chance)
			if err != nil {
				t.Fatal(err)
			}
			same(t, "passes left", got, c.want[i])
		}
	}
}
