package cli

import (
	"github.com/spf13/cobra"

	"steeltally/geometry"
)

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
