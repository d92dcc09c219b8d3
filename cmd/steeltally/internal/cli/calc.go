package cli

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"steeltally/geometry"
)

func (a *app) calcVerb() *cobra.Command {
	cmd := &cobra.Command{
		Use: "calc", Short: "the geometry of steel; needs no book", GroupID: groupAsk, Args: cobra.NoArgs,
		Long: `Compute hollows, edges, contact lengths, profiles, pitches, leans and strength. Lengths
take a unit: 1/2in, 2.9mm, 11ft. No book is needed.` + "\n" + cautions,
	}
	cmd.AddCommand(
		a.calcHollow(), a.calcEdge(), a.calcContact(), a.calcProfile(), a.calcPitch(),
		a.calcLean(), a.calcStrength(), a.calcTable(),
	)
	return cmd
}

// figure is one line of an answer.
type figure struct{ name, value string }

// answer tells what was computed: its figures and what they mean, or the result as one
// object with its meaning.
func (a *app) answer(result any, meaning string, figures ...figure) error {
	for _, f := range figures {
		a.voice.say("%-28s %s", f.name, f.value)
	}
	a.voice.say("%s", meaning)
	return a.voice.computed(result, meaning)
}

// computed makes what a formula refuses an error of the command line.
func computed(err error) error {
	if err == nil {
		return nil
	}
	return &usageError{err}
}

// needLength adds a length that must be given.
func needLength(cmd *cobra.Command, value *geometry.Millimetre, flag, what string) {
	mayLength(cmd.Flags(), value, flag, what)
	cmd.MarkFlagRequired(flag)
}

// mayLength adds a length that keeps its value where it is not given.
func mayLength(flags *pflag.FlagSet, value *geometry.Millimetre, flag, what string) {
	flags.Var(plain[geometry.Millimetre]{value, "length", geometry.ParseLength}, flag, what)
}

// needHeight adds a height that must be given; a bare number means millimetres.
func needHeight(cmd *cobra.Command, value *geometry.Millimetre, flag, what string) {
	cmd.Flags().Var(plain[geometry.Millimetre]{value, "mm", geometry.ParseHeight}, flag, what)
	cmd.MarkFlagRequired(flag)
}

// fine writes a length to a thousandth of a millimetre, for what a wheel leaves.
func fine(l geometry.Millimetre) string { return fmt.Sprintf("%.3f mm", float64(l)) }

// whole writes a length along the steel in tenths of a millimetre.
func whole(l geometry.Millimetre) string { return fmt.Sprintf("%.1f mm", float64(l)) }

// alongSteel says where along the steel: "6.5 mm to the toe".
func alongSteel(l geometry.Millimetre) string {
	switch {
	case l >= 0.05:
		return whole(l) + " to the toe of the middle"
	case l <= -0.05:
		return whole(-l) + " to the heel of the middle"
	}
	return "in the middle"
}

func (a *app) calcStrength() *cobra.Command {
	var height, heightNew, thickness geometry.Millimetre
	cmd := &cobra.Command{
		Use: "strength", Short: "how much bending strength worn steel has left",
		Long: `How much of its bending strength and stiffness worn steel has left, from its height and
its height when new: the whole runner's, top to edge.

` + geometry.StrengthCaution,
		Example: "  steeltally calc strength --height 15.5 --new 21",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			left, err := geometry.LeftOfStrength(height, heightNew)
			if err != nil {
				return computed(err)
			}
			return a.tellStrength(left, thickness)
		},
	}
	needHeight(cmd, &height, "height", "height of the whole runner now")
	needHeight(cmd, &heightNew, "new", "height when new")
	mayLength(cmd.Flags(), &thickness, "thickness", "thickness, for the section modulus")
	return cmd
}

func (a *app) tellStrength(left geometry.StrengthLeft, thickness geometry.Millimetre) error {
	figures := []figure{
		{"strength left", percent(left.Strength)},
		{"stiffness left", percent(left.Stiffness)},
		{"to the side", percent(left.Sideways)},
	}
	if thickness == 0 {
		return a.answer(left, left.Meaning(), figures...)
	}
	modulus, err := geometry.SectionModulus(thickness, left.Height)
	if err != nil {
		return computed(err)
	}
	result := struct {
		geometry.StrengthLeft
		Modulus geometry.CubicMillimetre `json:"section_modulus_mm3"`
	}{left, modulus}
	figures = append(figures, figure{"section modulus", fmt.Sprintf("%.2f mm³", float64(modulus))})
	return a.answer(result, left.Meaning(), figures...)
}

// percent writes a share of 1 in whole percents.
func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// leanAsked is a skate seen from the front.
type leanAsked struct {
	thickness, indentation geometry.Millimetre
	width, clearance       geometry.Millimetre
	lean                   float64
}

func (a *app) calcLean() *cobra.Command {
	asked := leanAsked{}
	cmd := &cobra.Command{
		Use: "lean", Short: "at which lean the holder touches the ice",
		Long: `At which lean from upright the holder (or the boot) touches the ice; or which clearance
a lean needs. Width is across the lowest outer corners, clearance how high those stand
above the edge: each millimetre ground off the runner is one less.

` + geometry.LeanCaution,
		Example: "  steeltally calc lean --width 34mm --clearance 30mm --thickness 2.9mm\n" +
			"  steeltally calc lean --width 34mm --lean 60 --thickness 2.9mm",
		Args: cobra.NoArgs,
	}
	cmd.RunE = func(*cobra.Command, []string) error {
		if cmd.Flags().Changed("lean") {
			return a.tellClearance(asked)
		}
		return a.tellLean(asked)
	}
	needLength(cmd, &asked.width, "width", "across the lowest outer corners of the holder")
	needLength(cmd, &asked.thickness, "thickness", "thickness of the runner")
	mayLength(cmd.Flags(), &asked.clearance, "clearance", "those corners above the edge of the runner")
	mayLength(cmd.Flags(), &asked.indentation, "indentation", "how deep the edge is in the ice; 0 unless told")
	cmd.Flags().Float64Var(&asked.lean, "lean", 0, "a lean in degrees from upright, to find the clearance it needs")
	cmd.MarkFlagsOneRequired("clearance", "lean")
	cmd.MarkFlagsMutuallyExclusive("clearance", "lean")
	return cmd
}

func (a *app) tellLean(asked leanAsked) error {
	corner := geometry.HolderCorner{Width: asked.width, Clearance: asked.clearance}
	lean, err := geometry.LeanToTouch(asked.thickness, asked.indentation, corner)
	if err != nil {
		return computed(err)
	}
	return a.answer(lean, lean.Meaning(), figure{"touches at", lean.Angle.String() + " from upright"})
}

func (a *app) tellClearance(asked leanAsked) error {
	clearance, err := geometry.ClearanceForLean(asked.thickness, asked.indentation, asked.width, geometry.Degree(asked.lean))
	if err != nil {
		return computed(err)
	}
	result := struct {
		Clearance geometry.Millimetre `json:"clearance_mm"`
		Lean      float64             `json:"lean_angle_deg"`
	}{clearance, asked.lean}
	meaning := "With less clearance than this the holder meets the ice first. " + geometry.LeanCaution
	return a.answer(result, meaning, figure{"clearance needed", clearance.String()})
}
