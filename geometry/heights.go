package geometry

import (
	"fmt"
	"math"
)

// HeightAt is a runner's height measured at a station: from the place the boot's
// level is taken from down to the edge. The station is counted from the middle
// of the ground length, positive to the toe.
type HeightAt struct {
	Station Millimetre `json:"station_mm"`
	Height  Millimetre `json:"height_mm"`
}

// Rocker is what three or more heights say about a runner's profile.
type Rocker struct {
	Radius       Millimetre `json:"radius_mm"`         // of the one circle through or nearest the edge
	BalancePoint Millimetre `json:"balance_mm"`        // station of the lowest point, boot level
	HeelMinusToe Millimetre `json:"heel_minus_toe_mm"` // pitch over Span, positive forward
	Span         Millimetre `json:"span_mm"`           // between the outermost stations
	Heights      int        `json:"heights"`
	Residual     Millimetre `json:"residual_mm"` // root mean square; 0 for three heights
}

// RockerFromHeights takes the heights as points of the edge, fits one circle
// (three: the circle through them; more: FitCircle) and reads it: the balance
// point is below its centre, the pitch is heel minus toe half a span to each
// side of the middle. Wanted are three or more heights above 0 at different
// stations, highest in the middle.
func RockerFromHeights(heights []HeightAt) (Rocker, error) {
	if err := checkHeights(heights); err != nil {
		return Rocker{}, err
	}
	edge := make([]Point, len(heights))
	first, last := heights[0].Station, heights[0].Station
	for i, h := range heights {
		edge[i] = Point{X: h.Station, Y: -h.Height}
		first, last = min(first, h.Station), max(last, h.Station)
	}
	fit, err := FitCircle(edge)
	if err != nil {
		return Rocker{}, fmt.Errorf("profile from heights: %w", err)
	}
	if err := checkRocker(fit.Circle, edge, last-first); err != nil {
		return Rocker{}, err
	}
	return Rocker{
		Radius: fit.Radius, BalancePoint: fit.CentreX, HeelMinusToe: pitchOn(fit.Circle, last-first), Span: last - first,
		Heights: len(heights), Residual: fit.Residual,
	}, nil
}

// checkRocker wants the edge on the lower half of its circle.
func checkRocker(c Circle, edge []Point, span Millimetre) error {
	deepest := edge[0].Y
	for _, p := range edge {
		deepest = min(deepest, p.Y)
	}
	if deepest > c.CentreY {
		return fmt.Errorf("heights lowest in the middle are %w: no rocker looks so; check stations and heights", ErrOutOfRange)
	}
	tooRound := (span/2 + c.CentreX.abs()) >= c.Radius
	for _, p := range edge {
		tooRound = tooRound || p.Y >= c.CentreY
	}
	if tooRound {
		return outOfRange("profile radius", c.Radius, "it turns 90° between the stations: check the unit of the heights")
	}
	return nil
}

// pitchOn reads heel minus toe off the circle's lower half.
func pitchOn(c Circle, span Millimetre) Millimetre {
	rise := func(x Millimetre) Millimetre { return Millimetre(math.Sqrt(float64((c.Radius - x) * (c.Radius + x)))) }
	return rise(-span/2-c.CentreX) - rise(span/2-c.CentreX)
}

func checkHeights(heights []HeightAt) error {
	stations := map[Millimetre]bool{}
	for _, h := range heights {
		if err := requireFinite("station", h.Station); err != nil {
			return err
		}
		if err := requirePositive("height", h.Height); err != nil {
			return err
		}
		stations[h.Station] = true
	}
	if len(stations) < 3 {
		return fmt.Errorf("heights at %d stations are %w: a radius needs three or more different stations", len(stations), ErrOutOfRange)
	}
	return nil
}

// Meaning says in one sentence how the skater stands.
func (r Rocker) Meaning() string {
	return fmt.Sprintf("About %.1f ft; pitch %s over %.0f mm; balanced %s.",
		float64(r.Radius/foot), FormatPitch(r.HeelMinusToe), float64(r.Span), fromMiddle(r.BalancePoint))
}
