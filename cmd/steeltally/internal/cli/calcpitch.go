package cli

import (
	"github.com/spf13/cobra"

	"steeltally/geometry"
)

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
