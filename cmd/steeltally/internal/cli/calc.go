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
