package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/geometry"
)

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
