package geometry

import (
	"fmt"
	"math"
)

// CircleFit is a circle fitted to points and how well they lie on it.
type CircleFit struct {
	Circle
	Points   int        `json:"points"`
	Residual Millimetre `json:"residual_mm"` // root mean square distance of the points from it
}

// FitCircle is the circle with the least sum of squared distances to the points,
// measured square to the circle (the geometric fit). Three points give the
// circle through them. Three or more points, not on a line.
//
// The problem is that of W. Gander, G. H. Golub, R. Strebel, "Least-squares
// fitting of circles and ellipses", BIT 34 (1994), 558–578. The unknowns are
// those of N. Chernov, C. Lesort, "Least squares fitting of circles", Journal of
// Mathematical Imaging and Vision 23 (2005), 239–252, which stay tame when the
// arc is nearly straight, as a runner is. The search is Levenberg and
// Marquardt's, from the linear circle and from the line through the points.
func FitCircle(points []Point) (CircleFit, error) {
	if len(points) == 3 {
		circle, err := ThreePointCircle(points[0], points[1], points[2])
		if err != nil {
			return CircleFit{}, err
		}
		return CircleFit{Circle: circle, Points: 3}, nil
	}
	best := CircleFit{Residual: Millimetre(math.Inf(1))}
	starts, err := startingFrames(points)
	if err != nil {
		return CircleFit{}, err
	}
	for _, frame := range starts {
		circle, ok := frame.circle(frame.refined(frame.searched(vector3{frame.start, 0, 0})))
		fit := CircleFit{Circle: circle, Points: len(points), Residual: rootMeanSquare(circle, points)}
		if ok && fit.Residual < best.Residual {
			best = fit
		}
	}
	if best.Points == 0 {
		return CircleFit{}, errStraight(len(points))
	}
	return best, nil
}

// Meaning says in one sentence how far the points bear the radius out.
func (f CircleFit) Meaning() string {
	radius := FormatProfile(f.Radius)
	if f.Points == 3 {
		return fmt.Sprintf("A radius of %s: three points always lie on one circle, a fourth would check it.", radius)
	}
	return fmt.Sprintf("A radius of %s; the %d points lie %.2f mm off it on the whole.", radius, f.Points, float64(f.Residual))
}

func rootMeanSquare(c Circle, points []Point) Millimetre {
	sum := 0.0
	for _, p := range points {
		d := float64(c.Distance(p))
		sum += d * d
	}
	return Millimetre(math.Sqrt(sum / float64(len(points))))
}
