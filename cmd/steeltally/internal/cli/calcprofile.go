package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"steeltally/geometry"
)

// Usual errors of one reading, common practice, no source: a caliper on loose steel
// and a station found by eye.
const (
	usualCaliper geometry.Millimetre = 0.05
	usualStation geometry.Millimetre = 1
)

func (a *app) calcProfile() *cobra.Command {
	var points, heights string
	caliper, off := usualCaliper, usualStation
	cmd := &cobra.Command{
		Use: "profile", Short: "the radius that points or heights lie on, and how sure it is",
		Long: `The radius that points of the edge lie on; or, from heights at stations along the
runner, radius, pitch and balance point with how sure they are. Stations count from the
middle of the ground length, above zero to the toe. Numbers are in mm.

A station that is 5 mm off at 80 mm on a 10 ft profile is 0.13 mm of height: mark the
stations, or use a stop.`,
		Example: "  steeltally calc profile --points \"-80,1 0,0 80,1\"\n" +
			"  steeltally calc profile --heights \"-80,20.05 -40,20.79 0,21.00 40,20.76 80,20.02\"",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if points != "" {
				return a.tellCircle(points)
			}
			return a.tellRocker(heights, caliper, off)
		},
	}
	cmd.Flags().StringVar(&points, "points", "", `points of the edge, as "x,y x,y …" in mm; three or more`)
	cmd.Flags().StringVar(&heights, "heights", "", `heights as "station,height …" in mm; three or more`)
	mayLength(cmd.Flags(), &caliper, "caliper", "how well the caliper repeats; 0.05mm unless told")
	mayLength(cmd.Flags(), &off, "station", "how well a station is found; 1mm unless told")
	cmd.MarkFlagsOneRequired("points", "heights")
	cmd.MarkFlagsMutuallyExclusive("points", "heights")
	return cmd
}

func (a *app) tellCircle(text string) error {
	points, err := parsePoints(text)
	if err != nil {
		return err
	}
	fit, err := geometry.FitCircle(points)
	if err != nil {
		return computed(err)
	}
	return a.answer(fit, fit.Meaning(),
		figure{"radius", whole(fit.Radius) + ", " + geometry.FormatProfile(fit.Radius)},
		figure{"centre x, y", fine(fit.CentreX) + ", " + fine(fit.CentreY)},
		figure{"points off it", fine(fit.Residual)})
}

func (a *app) tellRocker(text string, caliper, off geometry.Millimetre) error {
	points, err := parsePoints(text)
	if err != nil {
		return err
	}
	heights := make([]geometry.HeightAt, len(points))
	for i, p := range points {
		heights[i] = geometry.HeightAt{Station: p.X, Height: p.Y}
	}
	rocker, err := geometry.RockerWithDoubt(heights, caliper, off)
	if err != nil {
		return computed(err)
	}
	return a.answer(rocker, rocker.Meaning(),
		figure{"radius", geometry.FormatProfile(rocker.Radius)},
		figure{"very likely between", sayRadii(rocker.RadiusLow, rocker.RadiusHigh)},
		figure{"balance point", alongSteel(rocker.BalancePoint) + ", give or take " + whole(2*rocker.BalanceDoubt.Total)},
		figure{"pitch", geometry.FormatPitch(rocker.HeelMinusToe) + ", give or take " + (2 * rocker.PitchDoubt.Total).String()})
}

// sayRadii writes two ends of a range of radii; the upper one may be flat steel.
func sayRadii(low, high geometry.Millimetre) string {
	if high == 0 {
		return geometry.FormatProfile(low) + " and flat"
	}
	return geometry.FormatProfile(low) + " and " + geometry.FormatProfile(high)
}

// parsePoints reads "x,y x,y …" in mm.
func parsePoints(text string) ([]geometry.Point, error) {
	var points []geometry.Point
	for _, pair := range strings.Fields(text) {
		x, y, found := strings.Cut(pair, ",")
		if !found {
			return nil, usage("%q is no point; write x,y in mm, with blanks between the points", pair)
		}
		px, errX := geometry.ParseHeight(x)
		py, errY := geometry.ParseHeight(y)
		if errX != nil || errY != nil {
			return nil, usage("%q is no point; write x,y in mm, with a full stop for decimals", pair)
		}
		points = append(points, geometry.Point{X: px, Y: py})
	}
	return points, nil
}
