package cli

import (
	"errors"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory/deeds"
)

func (a *app) undoVerb() *cobra.Command {
	correction := desk.Correction{}
	cmd := &cobra.Command{
		Use: "undo [PLAYER|PIECE|ENTRY…]", Short: "take the last entry back, or say what was wrong", GroupID: groupDay,
		Long: `Take the last entry back, the last one of a player or piece, or an entry by the number
that history shows (812@c3a9). What is taken back stays visible in the history.

It can also say what was wrong: the last grinds were on another set, or for another
player; left and right were swapped since a day; two entries that look like a conflict
are both right.`,
		Example: "  steeltally undo\n  steeltally undo 17\n  steeltally undo 812@c3a9 --words \"wrong height\"\n" +
			"  steeltally undo 17 --last 2 --was-set B\n  steeltally undo 17 --was-player 71\n" +
			"  steeltally undo 17 --swapped-since 2025-11-20\n  steeltally undo 812@c3a9 813@c3a9 --both-right",
		RunE: func(_ *cobra.Command, args []string) error {
			correction.Given = a.world.Now()
			for _, arg := range args {
				if strings.Contains(arg, "@") {
					correction.Keys = append(correction.Keys, arg)
				} else if correction.About == "" {
					correction.About = arg
				} else {
					return usage("name one player or piece, or entries such as 812@c3a9")
				}
			}
			return a.actOn(correction.About, func(d *desk.Desk, who string) (desk.Done, error) {
				correction.About = who
				done, err := d.Correct(correction)
				if which := new(deeds.WhichPairError); errors.As(err, &which) && a.mayAsk() {
					if correction.Pair, err = a.askPair(which); err == nil {
						return d.Correct(correction)
					}
				}
				return done, err
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&correction.Words, "words", "", "what was wrong, in words")
	flags.IntVar(&correction.Last, "last", 0, "the last so many grinds")
	flags.StringVar(&correction.WasSet, "was-set", "", "the grinds were on this set")
	flags.StringVar(&correction.Pair, "pair", "", "with --was-set: the pair that was ground, first, spare, third or its number")
	flags.StringVar(&correction.WasPlayer, "was-player", "", "the grinds were for this player")
	flags.StringVar(&correction.SwappedSince, "swapped-since", "", "left and right were swapped since this day")
	flags.BoolVar(&correction.BothRight, "both-right", false, "the entries are all right")
	cmd.MarkFlagsMutuallyExclusive("was-set", "was-player", "swapped-since", "both-right")
	return cmd
}

// askPair asks which pair was ground; no answer leaves the refusal.
func (a *app) askPair(which *deeds.WhichPairError) (string, error) {
	a.sayQuestion(jig.Question{Text: which.Reason + ": which is it?", Choices: which.Readings[:]})
	choice, err := strconv.Atoi(a.answers().answer())
	if err != nil || choice < 1 || choice > len(which.Pairs) {
		return "", which
	}
	return which.Pairs[choice-1].String(), nil
}
