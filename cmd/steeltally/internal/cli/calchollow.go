package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
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

// goalkeepersThickness is what the hollow table compares with unless told; common
// practice, no source: goalkeepers' steel is 3.5 to 4 mm thick.
const goalkeepersThickness geometry.Millimetre = 4

func (a *app) calcTable() *cobra.Command {
	return parent(&cobra.Command{Use: "table", Short: "tables for the wall of the shop", Args: cobra.NoArgs}, a.calcTableHollow())
}

func (a *app) calcTableHollow() *cobra.Command {
	var thickness geometry.Millimetre
	page := desk.Sheet{}
	other := goalkeepersThickness
	cmd := &cobra.Command{
		Use: "hollow", Short: "depth and bite of every hollow that the shop dresses",
		Example: "  steeltally calc table hollow --thickness 2.9mm --other 4mm --pdf hollows.pdf",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			rows, err := geometry.HollowTable(thickness, other)
			if err != nil {
				return computed(err)
			}
			if page.File != "" {
				return a.wrote(desk.PrintHollowTable(rows, thickness, other, page))
			}
			return a.tellHollowTable(rows, thickness, other)
		},
	}
	needLength(cmd, &thickness, "thickness", "thickness of the runner")
	mayLength(cmd.Flags(), &other, "other", "thickness of other runners that shall bite alike; 4mm unless told")
	a.sheetFlags(cmd, &page)
	return cmd
}

// hollowTable is the table for programs.
type hollowTable struct {
	Thickness geometry.Millimetre  `json:"thickness_mm"`
	Other     geometry.Millimetre  `json:"other_mm"`
	Rows      []geometry.HollowRow `json:"rows"`
}

func (a *app) tellHollowTable(rows []geometry.HollowRow, thickness, other geometry.Millimetre) error {
	var cells [][]string
	for _, row := range rows {
		cells = append(cells, []string{row.Name, fine(row.Depth), row.EdgeAngle.String(), row.BiteAngle.String(), row.Shop})
	}
	a.voice.table([]string{"hollow", "depth", "edge angle", "bite angle", "on " + other.String()}, cells)
	a.voice.say("%s", desk.HollowTableMeaning)
	return a.voice.computed(hollowTable{thickness, other, rows}, desk.HollowTableMeaning)
}

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
