package geometry

import (
	"cmp"
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
		if err := cmp.Or(requireFinite("station", h.Station), requirePositive("height", h.Height)); err != nil {
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

// tooMuchScatter is where "the errors given" stops being a likely story for the
// heights; common practice in fitting, no source.
const tooMuchScatter = 2

// Meaning says in one sentence how far to trust the radius and what would help
// most.
func (d RockerDoubt) Meaning() string {
	sentence := d.radiusWords()
	switch {
	case d.Misfit > tooMuchScatter:
		sentence += "; the heights do not lie on one radius: a slip, or a profile of several radii"
	case d.RadiusDoubt.Station > d.RadiusDoubt.Caliper:
		sentence += "; the stations cost more than the caliper: mark them, or use a stop"
	case d.RadiusDoubt.Caliper > 0:
		sentence += "; the caliper costs most: measure again, or wider apart"
	}
	return sentence + "."
}

func (d RockerDoubt) radiusWords() string {
	if d.RadiusHigh == 0 {
		return fmt.Sprintf("The radius is at least %.1f ft; these heights can't say more", float64(d.RadiusLow/foot))
	}
	return fmt.Sprintf("The radius lies between %.1f and %.1f ft, the balance point within %.0f mm",
		float64(d.RadiusLow/foot), float64(d.RadiusHigh/foot), float64(2*d.BalanceDoubt.Total))
}

// Doubt is a standard error (one standard deviation) and where it comes from.
type Doubt struct {
	Caliper Millimetre `json:"caliper_mm"` // from the heights
	Station Millimetre `json:"station_mm"` // from the stations
	Total   Millimetre `json:"total_mm"`
}

// RockerDoubt is how well heights pin a profile down.
type RockerDoubt struct {
	Rocker
	RadiusDoubt  Doubt      `json:"radius_error"`
	BalanceDoubt Doubt      `json:"balance_error"`
	PitchDoubt   Doubt      `json:"pitch_error"`
	RadiusLow    Millimetre `json:"radius_low_mm"`            // about 95 % lies between these
	RadiusHigh   Millimetre `json:"radius_high_mm,omitempty"` // 0: it may as well be flat
	Misfit       float64    `json:"misfit"`                   // scatter against the errors given; 0 for three heights or no errors
}

// RockerWithDoubt is RockerFromHeights with its uncertainty, for a standard
// error of the caliper and one of the stations, each 0 or more, each height and
// each station missing on its own. The errors go through to first order, one
// input moved at a time. The 95 % range of the radius is taken two standard
// errors wide in 1/R, where the errors are even, so it is longer upwards.
//
// Source: JCGM 100:2008 (GUM), clauses 5.1.2 and 5.1.3 note 2 (from memory).
func RockerWithDoubt(heights []HeightAt, caliper, station Millimetre) (RockerDoubt, error) {
	if err := cmp.Or(requireNotNegative("caliper error", caliper), requireNotNegative("station error", station)); err != nil {
		return RockerDoubt{}, err
	}
	rocker, err := RockerFromHeights(heights)
	if err != nil {
		return RockerDoubt{}, err
	}
	byCaliper, err := propagate(heights, caliper, func(h *HeightAt, by Millimetre) { h.Height += by })
	if err != nil {
		return RockerDoubt{}, err
	}
	byStation, err := propagate(heights, station, func(h *HeightAt, by Millimetre) { h.Station += by })
	if err != nil {
		return RockerDoubt{}, err
	}
	doubt := RockerDoubt{
		Rocker:       rocker,
		RadiusDoubt:  together(byCaliper.radius, byStation.radius),
		BalanceDoubt: together(byCaliper.balance, byStation.balance),
		PitchDoubt:   together(byCaliper.pitch, byStation.pitch),
		Misfit:       misfit(rocker, heights, caliper, station),
	}
	doubt.RadiusLow, doubt.RadiusHigh = radiusRange(rocker.Radius, doubt.RadiusDoubt.Total)
	return doubt, nil
}

func together(caliper, station Millimetre) Doubt {
	return Doubt{Caliper: caliper, Station: station, Total: Millimetre(math.Hypot(float64(caliper), float64(station)))}
}

// spread holds the standard errors that one kind of input causes.
type spread struct{ radius, balance, pitch Millimetre }

// probe is the part of a standard error by which inputs are moved: small enough
// that the answer moves in proportion, large enough to be far above rounding.
const probe = 1.0 / 16

// propagate moves each input up and down by a little and adds up the squares of
// what comes out of it.
func propagate(heights []HeightAt, sd Millimetre, move func(*HeightAt, Millimetre)) (spread, error) {
	var sum spread
	if sd == 0 {
		return sum, nil
	}
	for i := range heights {
		var side [2]Rocker
		for k, by := range []Millimetre{probe * sd, -probe * sd} {
			moved := append([]HeightAt(nil), heights...)
			move(&moved[i], by)
			rocker, err := RockerFromHeights(moved)
			if err != nil {
				return spread{}, fmt.Errorf("an error of %v hides the curve: measure better or wider apart: %w", sd, err)
			}
			side[k] = rocker
		}
		change := func(up, down Millimetre) Millimetre { return (up - down) / (2 * probe) }
		sum.add(change(side[0].Radius, side[1].Radius),
			change(side[0].BalancePoint, side[1].BalancePoint),
			change(side[0].HeelMinusToe, side[1].HeelMinusToe))
	}
	return sum, nil
}

func (s *spread) add(radius, balance, pitch Millimetre) {
	hypot := func(a, b Millimetre) Millimetre { return Millimetre(math.Hypot(float64(a), float64(b))) }
	s.radius, s.balance, s.pitch = hypot(s.radius, radius), hypot(s.balance, balance), hypot(s.pitch, pitch)
}

// radiusRange is 1/(1/R ± 2u), u the standard error of 1/R.
func radiusRange(radius, doubt Millimetre) (low, high Millimetre) {
	bend, u := 1/radius, doubt/(radius*radius)
	low = 1 / (bend + 2*u)
	if bend > 2*u {
		high = 1 / (bend - 2*u)
	}
	return low, high
}
