package cli

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) dueVerb() *cobra.Command {
	asked := desk.DueAsked{}
	var planned string
	cmd := &cobra.Command{
		Use: "due [PLAYER…]", Short: "whose steel is due, and when", GroupID: groupAsk,
		Long: `Say whose steel is due, and when: which set is on, how many passes and sessions are
left, on which day it will be due through the schedule, what to measure next, and which
set is ready. The most urgent come first; cracked steel before everything.

A range such as 60 (46 to 76) has the middle guess, and the span that holds in about
eight cases of ten. A player who was asked and would not change (steeltally refuse) is
left in peace until the day on which to ask again.`,
		Example: "  steeltally due\n  steeltally due 17\n  steeltally due --trip \"western swing\"\n" +
			"  steeltally due 17 --planned 15,10,10,15",
		RunE: func(_ *cobra.Command, args []string) error {
			var err error
			if asked.Planned, err = parsePlanned(planned); err != nil {
				return err
			}
			return a.reading(func(d *desk.Desk) error {
				for _, arg := range args {
					who, err := a.player(d, arg)
					if err != nil {
						return err
					}
					asked.Players = append(asked.Players, who)
				}
				list, err := d.Due(asked)
				if err != nil {
					return err
				}
				told, err := dueObject(d, list)
				if err != nil {
					return err
				}
				a.sayDue(list, len(args) > 0, d.Zone())
				return a.voice.told(told)
			})
		},
	}
	cmd.Flags().StringVar(&asked.Until, "until", "", "only steel that may be due by this day, such as a trip's last")
	cmd.Flags().StringVar(&asked.Trip, "trip", "", "only players on this trip whose steel may not last it")
	cmd.MarkFlagsMutuallyExclusive("until", "trip")
	cmd.Flags().StringVar(&planned, "planned", "", "passes on each day from today, in place of the schedule's: 15,10,10,15")
	return cmd
}

// parsePlanned reads "15,10,10,15".
func parsePlanned(text string) ([]float64, error) {
	if text == "" {
		return nil, nil
	}
	var passes []float64
	for _, part := range strings.Split(text, ",") {
		p, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || p < 0 {
			return nil, usage("%q is no number of passes; write them day by day, such as 15,10,10,15", part)
		}
		passes = append(passes, float64(p))
	}
	return passes, nil
}

func (a *app) refuseVerb() *cobra.Command {
	var pair, until, answer string
	cmd := &cobra.Command{
		Use: "refuse PLAYER --until DAY", Short: "a player was asked to change steel and would not", GroupID: groupDay,
		Long: `Note that a player was asked to change and would not, what he said, and when to ask
again. Until then he is not on the list of who is due. A crack is no matter of taste:
cracked steel comes off.`,
		Example: `  steeltally refuse 17 --until 2025-12-10 --answer "after the home game"`,
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) {
				return d.RefuseChange(who, pair, until, answer)
			})
		},
	}
	cmd.Flags().StringVar(&until, "until", "", "the day on which to ask again")
	cmd.Flags().StringVar(&answer, "answer", "", "what he said")
	cmd.Flags().StringVar(&pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	cmd.MarkFlagRequired("until")
	return cmd
}

// sayRange writes passes: "60 (46 to 76)".
func sayRange(low, middle, high float64) string {
	return fmt.Sprintf("%.0f (%.0f to %.0f)", middle, low, high)
}
