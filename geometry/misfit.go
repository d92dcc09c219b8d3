package geometry

import "math"

// misfit is the scatter of heights about their circle, divided by what the
// errors given would cause: about 1 when they explain it, 0 where nothing can be
// said (three heights, or no errors). A height that pulls the circle strongly
// leaves little of its own error over: of its variance σ² the circle leaves
// σ²(1 − h), h the leverage in the fit of a parabola, which so flat an arc is.
//
// Source of the leverage: D. C. Hoaglin, R. E. Welsch, "The hat matrix in
// regression and ANOVA", The American Statistician 32 (1978), 17–22 (from
// memory).
func misfit(r Rocker, heights []HeightAt, caliper, station Millimetre) float64 {
	expected := 0.0
	for i, leverage := range leverages(heights) {
		slope := float64((heights[i].Station - r.BalancePoint) / r.Radius)
		variance := float64(caliper*caliper) + slope*slope*float64(station*station)
		expected += variance * max(0, 1-leverage)
	}
	if len(heights) == 3 || !(expected > 0) {
		return 0
	}
	return float64(r.Residual) * math.Sqrt(float64(len(heights))/expected)
}

// leverages are pᵀ(PᵀP)⁻¹p for each station's powers p = (1, x, x²).
func leverages(heights []HeightAt) []float64 {
	points := make([]Point, len(heights))
	for i, h := range heights {
		points[i].X = h.Station
	}
	mean, spread := centroid(points)
	powers := make([]vector3, len(heights))
	var sums matrix3
	for i, p := range points {
		x := float64((p.X - mean.X) / spread)
		powers[i] = vector3{1, x, x * x}
		for row := range 3 {
			for column := range 3 {
				sums[row][column] += powers[i][row] * powers[i][column]
			}
		}
	}
	all := make([]float64, len(heights))
	for i, p := range powers {
		if weights, ok := sums.solve(p); ok {
			all[i] = p[0]*weights[0] + p[1]*weights[1] + p[2]*weights[2]
		}
	}
	return all
}
