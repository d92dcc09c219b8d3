package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/geometry"
	"steeltally/inventory"
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

// pitchAsked is a pitch on a profile, and what wear took off its ends.
type pitchAsked struct {
	profile, pitch, span geometry.Millimetre
	heelLoss, toeLoss    geometry.Millimetre
}

func (a *app) calcPitch() *cobra.Command {
	asked := pitchAsked{span: usualSpan}
	cmd := &cobra.Command{
		Use: "pitch", Short: "what a pitch does to the balance point, and how wear moves it",
		Long: `What a pitch (heel minus toe) does to the boot's tilt and the balance point on a profile
of one radius. With what grinding took off heel and toe: how far the balance point moved.`,
		Example: "  steeltally calc pitch --pitch 1.5mm --profile 11ft\n" +
			"  steeltally calc pitch --pitch 0mm --profile 11ft --heel-loss 2.1mm --toe-loss 2.6mm",
		Args: cobra.NoArgs,
	}
	cmd.RunE = func(*cobra.Command, []string) error {
		if cmd.Flags().Changed("heel-loss") {
			return a.tellBalance(asked)
		}
		return a.tellPitch(asked)
	}
	needLength(cmd, &asked.pitch, "pitch", "heel minus toe; above zero leans forward")
	needLength(cmd, &asked.profile, "profile", "radius of the profile")
	mayLength(cmd.Flags(), &asked.span, "span", "between the places where heel and toe are measured; 160mm unless told")
	mayLength(cmd.Flags(), &asked.heelLoss, "heel-loss", "what grinding took off at the heel")
	mayLength(cmd.Flags(), &asked.toeLoss, "toe-loss", "and at the toe")
	cmd.MarkFlagsRequiredTogether("heel-loss", "toe-loss")
	return cmd
}

func (a *app) tellPitch(asked pitchAsked) error {
	pitch, err := geometry.Pitch(asked.profile, asked.pitch, asked.span)
	if err != nil {
		return computed(err)
	}
	return a.answer(pitch, pitch.Meaning(),
		figure{"pitch", geometry.FormatPitch(pitch.HeelMinusToe) + " over " + whole(pitch.Span)},
		figure{"tilt", pitch.Angle.String()},
		figure{"balance point", alongSteel(pitch.BalancePoint)})
}

func (a *app) tellBalance(asked pitchAsked) error {
	moved, err := geometry.WearMovesBalance(asked.profile, asked.pitch, asked.span, asked.heelLoss, asked.toeLoss)
	if err != nil {
		return computed(err)
	}
	return a.answer(moved, moved.Meaning(),
		figure{"pitch before, after", geometry.FormatPitch(asked.pitch) + ", " + geometry.FormatPitch(asked.pitch+moved.PitchChange)},
		figure{"balance point before", alongSteel(moved.After - moved.Move)},
		figure{"balance point after", alongSteel(moved.After)})
}

// contactAsked is a runner as it stands on the ice.
type contactAsked struct {
	profile     inventory.Profile
	parts       []string
	indentation geometry.Millimetre
	pitch, span geometry.Millimetre
	length      geometry.Millimetre
}

// usualSpan is the distance between the places where heel and toe are measured, and
// usualGround the ground length of a middling runner; common practice, no source.
const (
	usualSpan   geometry.Millimetre = 160
	usualGround geometry.Millimetre = 240
)

func (a *app) calcContact() *cobra.Command {
	asked := contactAsked{span: usualSpan, length: usualGround}
	cmd := &cobra.Command{
		Use: "contact", Short: "how much steel is in the ice, and where",
		Long: `How much steel is in the ice for a profile and an indentation, and where the balance
point lies. Several radii are given from toe to heel, 9ft+13ft; each takes an equal part
of the ground length unless --parts says otherwise.

Soft ice gives way more than hard ice: try 0.03mm to 0.1mm (from memory, no source at hand).`,
		Example: "  steeltally calc contact --profile 11ft --indentation 0.05mm\n" +
			"  steeltally calc contact --profile 9ft+13ft --length 240mm --indentation 0.05mm --pitch 1mm",
		Args: cobra.NoArgs,
	}
	cmd.RunE = func(*cobra.Command, []string) error {
		contact, err := asked.contact(cmd.Flags().Changed("length"))
		if err != nil {
			return computed(err)
		}
		return a.answer(contact, contact.Meaning(),
			figure{"contact", whole(contact.Length)},
			figure{"from heel to toe", alongSteel(contact.HeelEnd) + ", " + alongSteel(contact.ToeEnd)},
			figure{"lowest point", alongSteel(contact.LowestPoint)},
			figure{"balance point", alongSteel(contact.BalancePoint)})
	}
	cmd.Flags().Var(profileFlag(&asked.profile), "profile", "profile; several radii from toe to heel as 9ft+13ft")
	cmd.MarkFlagRequired("profile")
	needLength(cmd, &asked.indentation, "indentation", "how deep the steel presses into the ice")
	mayLength(cmd.Flags(), &asked.pitch, "pitch", "heel minus toe; above zero leans forward")
	mayLength(cmd.Flags(), &asked.span, "span", "between the places where heel and toe are measured; 160mm unless told")
	mayLength(cmd.Flags(), &asked.length, "length", "ground length; with one radius endless unless told, with several 240mm")
	cmd.Flags().StringSliceVar(&asked.parts, "parts", nil, "length of each radius from toe to heel, such as 100mm,140mm")
	return cmd
}

func (c contactAsked) contact(bounded bool) (geometry.Contact, error) {
	pitch, err := geometry.PitchAngle(c.pitch, c.span)
	if err != nil {
		return geometry.Contact{}, err
	}
	if len(c.profile) == 1 && !bounded && len(c.parts) == 0 {
		return geometry.ContactOnOneRadius(c.profile[0], pitch, c.indentation)
	}
	arcs, err := c.arcs()
	if err != nil {
		return geometry.Contact{}, err
	}
	profile, err := geometry.NewProfile(0, arcs...)
	if err != nil {
		return geometry.Contact{}, err
	}
	return profile.Contact(pitch, c.indentation)
}

// arcs are the radii from heel to toe, each with its length.
func (c contactAsked) arcs() ([]geometry.Arc, error) {
	if len(c.parts) > 0 && len(c.parts) != len(c.profile) {
		return nil, usage("%d radii and %d lengths: give one length for each radius", len(c.profile), len(c.parts))
	}
	var arcs []geometry.Arc
	for i, radius := range c.profile {
		arc := geometry.Arc{Radius: radius, Length: c.length / geometry.Millimetre(len(c.profile))}
		if len(c.parts) > 0 {
			length, err := geometry.ParseLength(c.parts[i])
			if err != nil {
				return nil, err
			}
			arc.Length = length
		}
		arcs = append(arcs, arc)
	}
	slices.Reverse(arcs)
	return arcs, nil
}
