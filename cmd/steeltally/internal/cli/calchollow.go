package cli

import (
	"github.com/spf13/cobra"

	"steeltally/geometry"
)

// hollowAsked is what is known of a hollow; one of the four ways to say it.
type hollowAsked struct {
	radius, depth, thickness, other geometry.Millimetre
	flatWidth, edgeHeight           geometry.Millimetre
	bite                            float64
}

func (a *app) calcHollow() *cobra.Command {
	asked := hollowAsked{}
	cmd := &cobra.Command{
		Use: "hollow", Short: "depth, edge angle and bite angle of a hollow",
		Long: `Depth, edge angle and bite angle of a hollow, from its radius, a measured depth, or a
bite angle; or of a flat-bottomed cut, with the round hollow that bites alike. With
--other it is carried to runners of another thickness, to the nearest sixteenth.

The edge angle is the steel between hollow and side: smaller is sharper. The bite angle
is the hollow's slope at the edge: larger bites more. The two add up to 90 degrees.`,
		Example: "  steeltally calc hollow --radius 1/2in --thickness 2.9mm\n" +
			"  steeltally calc hollow --radius 1/2in --thickness 2.9mm --other 4mm\n" +
			"  steeltally calc hollow --flat-width 2.3mm --edge-height 0.04mm --thickness 2.9mm",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.tellHollow(asked) },
	}
	mayLength(cmd.Flags(), &asked.radius, "radius", "radius of the hollow, such as 1/2in")
	mayLength(cmd.Flags(), &asked.depth, "depth", "depth of the hollow, measured")
	cmd.Flags().Float64Var(&asked.bite, "bite", 0, "bite angle in degrees")
	mayLength(cmd.Flags(), &asked.flatWidth, "flat-width", "width of the flat of a flat-bottomed cut")
	mayLength(cmd.Flags(), &asked.edgeHeight, "edge-height", "height of its edges above the flat")
	needLength(cmd, &asked.thickness, "thickness", "thickness of the runner")
	mayLength(cmd.Flags(), &asked.other, "other", "thickness of other runners that shall bite alike")
	cmd.MarkFlagsOneRequired("radius", "depth", "bite", "flat-width")
	cmd.MarkFlagsMutuallyExclusive("radius", "depth", "bite", "flat-width")
	cmd.MarkFlagsRequiredTogether("flat-width", "edge-height")
	return cmd
}

func (a *app) tellHollow(asked hollowAsked) error {
	if asked.flatWidth != 0 {
		return a.tellFlat(asked)
	}
	shape, err := asked.shape()
	if err != nil {
		return computed(err)
	}
	if asked.other != 0 {
		return a.tellOther(shape, asked.other)
	}
	return a.answer(shape, shape.Meaning(), hollowFigures(shape)...)
}

// shape is the round hollow, whatever is known of it.
func (h hollowAsked) shape() (geometry.HollowShape, error) {
	switch {
	case h.depth != 0:
		return geometry.HollowFromDepth(h.depth, h.thickness)
	case h.bite != 0:
		return geometry.HollowFromBite(geometry.Degree(h.bite), h.thickness)
	}
	return geometry.Hollow(h.radius, h.thickness)
}

func hollowFigures(h geometry.HollowShape) []figure {
	return []figure{
		{"hollow", geometry.FormatHollow(h.Radius) + " on " + h.Thickness.String()},
		{"depth", fine(h.Depth)},
		{"edge angle", h.EdgeAngle.String()},
		{"bite angle", h.BiteAngle.String()},
	}
}

func (a *app) tellOther(shape geometry.HollowShape, other geometry.Millimetre) error {
	alike, err := geometry.EqualBiteHollow(shape.Radius, shape.Thickness, other)
	if err != nil {
		return computed(err)
	}
	result := struct {
		geometry.HollowShape
		Other geometry.EqualBite `json:"equal_bite"`
	}{shape, alike}
	figures := append(hollowFigures(shape),
		figure{"alike on " + other.String(), whole(alike.Exact.Radius)},
		figure{"nearest sixteenth", geometry.FormatHollow(alike.Sixteenth.Radius) + ", bite angle " + alike.Sixteenth.BiteAngle.String()})
	return a.answer(result, alike.Meaning(), figures...)
}

func (a *app) tellFlat(asked hollowAsked) error {
	cut, err := geometry.FlatBottomedCut(asked.flatWidth, asked.edgeHeight, asked.thickness)
	if err != nil {
		return computed(err)
	}
	return a.answer(cut, cut.Meaning(),
		figure{"cut", geometry.FormatFlatCut(cut.FlatWidth, cut.EdgeHeight) + " on " + cut.Thickness.String()},
		figure{"edge angle", cut.EdgeAngle.String()},
		figure{"bite angle", cut.BiteAngle.String()},
		figure{"round hollow that bites alike", whole(cut.EqualBite)})
}
