package cli

import (
	"github.com/spf13/cobra"

	"steeltally/geometry"
)

// edgeAsked is what the bench saw of two edges that are not level.
type edgeAsked struct {
	radius, thickness       geometry.Millimetre
	difference, offset, arm geometry.Millimetre
	square                  float64
}

func (a *app) calcEdge() *cobra.Command {
	asked := edgeAsked{}
	cmd := &cobra.Command{
		Use: "edge", Short: "edges that are not level, and which way to move the wheel",
		Long: `Edges that are not level: from their difference in height, from the wheel's offset, or
from the angle of a bar laid across them, and which way to move the wheel.

Left and right are as seen from the heel with the edges up. Above zero the left edge is
high and the wheel sat to the right.`,
		Example: "  steeltally calc edge --radius 1/2in --thickness 2.9mm --difference 0.05mm\n" +
			"  steeltally calc edge --radius 1/2in --thickness 2.9mm --offset -0.1mm\n" +
			"  steeltally calc edge --radius 1/2in --thickness 2.9mm --square 0.8 --arm 60mm",
		Args: cobra.NoArgs,
	}
	cmd.RunE = func(*cobra.Command, []string) error {
		level, err := asked.level(cmd.Flags().Changed("offset"), cmd.Flags().Changed("square"))
		if err != nil {
			return computed(err)
		}
		return a.tellEdge(level, asked.arm)
	}
	needLength(cmd, &asked.radius, "radius", "radius of the hollow")
	needLength(cmd, &asked.thickness, "thickness", "thickness of the runner")
	mayLength(cmd.Flags(), &asked.difference, "difference", "left edge above the right one")
	mayLength(cmd.Flags(), &asked.offset, "offset", "the wheel's middle to the right of the steel's")
	cmd.Flags().Float64Var(&asked.square, "square", 0, "degrees by which a bar across the edges is out of square")
	mayLength(cmd.Flags(), &asked.arm, "arm", "length of that bar, to say how far its end stands off")
	cmd.MarkFlagsOneRequired("difference", "offset", "square")
	cmd.MarkFlagsMutuallyExclusive("difference", "offset", "square")
	return cmd
}

func (e edgeAsked) level(byOffset, bySquare bool) (geometry.EdgeLevel, error) {
	switch {
	case byOffset:
		return geometry.EdgeLevelFromOffset(e.radius, e.thickness, e.offset)
	case bySquare:
		return geometry.EdgeLevelFromSquare(e.radius, e.thickness, geometry.Degree(e.square))
	}
	return geometry.EdgeLevelFromDifference(e.radius, e.thickness, e.difference)
}

func (a *app) tellEdge(level geometry.EdgeLevel, arm geometry.Millimetre) error {
	figures := []figure{
		{"left edge above right", fine(level.Difference)},
		{"wheel to the right", fine(level.Offset)},
		{"bar out of square", level.SquareAngle.String()},
		{"bite angle left, right", level.LeftBite.String() + ", " + level.RightBite.String()},
	}
	if arm == 0 {
		return a.answer(level, level.Meaning(), figures...)
	}
	gap, err := level.SquareGap(arm)
	if err != nil {
		return computed(err)
	}
	result := struct {
		geometry.EdgeLevel
		Gap geometry.Millimetre `json:"square_gap_mm"`
		Arm geometry.Millimetre `json:"arm_mm"`
	}{level, gap, arm}
	figures = append(figures, figure{"the bar's end off square", fine(gap) + " at " + whole(arm)})
	return a.answer(result, level.Meaning(), figures...)
}
