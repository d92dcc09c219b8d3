package cli

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) emergencyDone() *cobra.Command {
	deed := deeds.EndEmergency{}
	var with []string
	cmd := &cobra.Command{
		Use: "done [PLAYER]", Short: "how the player got back on the ice, and what had broken",
		Long: `Say how a player got back on the ice: ` + list(inventory.Remedies()) + `.
On the spare pair or on borrowed things is mended for the moment only: it stays open
work until steeltally emergency close.`,
		Example: "  steeltally emergency done 8 --did spare --took 2m --shifts-missed 1 --broke holder --mode crack --zone rear-tower\n" +
			"  steeltally emergency done 8 --did steel --with B --broke runner --mode break",
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			who := strings.Join(args, "")
			if deed.Did == "" && a.mayAsk() {
				var rescue desk.Rescue
				err := a.reading(func(d *desk.Desk) (err error) {
					rescue, err = d.OpenRescue(who)
					return err
				})
				if err != nil {
					return err
				}
				return a.askDone(rescue, who, deed, with, a.answers().answer)
			}
			if string(deed.Did) == "set" {
				deed.Did = inventory.RemedySteel // as the ways back are called
			}
			if deed.Did == "" {
				return usage("what was done? add --did, one of %s", list(inventory.Remedies()))
			}
			return a.endEmergency(who, deed, with)
		},
	}
	flags := cmd.Flags()
	wordFlag(cmd, &deed.Did, "did", "what was done", inventory.Remedies())
	flags.StringArrayVar(&with, "with", nil, "what helped: the letter of a set of his, the role of a pair, or any number")
	flags.StringVar(&deed.Broke, "broke", "", "holder, runner or nothing")
	wordFlag(cmd, &deed.Mode, "mode", "how", inventory.Modes())
	wordFlag(cmd, &deed.Zone, "zone", "where", inventory.Zones())
	wordFlag(cmd, &deed.Cause, "cause", "what did it", inventory.Causes())
	flags.Var(minutesFlag(&deed.Minutes), "took", "until the player was back, such as 2m")
	flags.Var(countFlag(&deed.ShiftsMissed), "shifts-missed", "shifts that he missed")
	flags.BoolVar(&deed.Permanent, "for-good", false, "nothing is left to be mended")
	flags.StringVar(&deed.Note, "note", "", "anything else")
	soundFlag(cmd, &deed.Sure)
	completeWords(cmd, "broke", []string{deeds.BrokeHolder, deeds.BrokeRunner, deeds.BrokeNothing})
	return cmd
}

func (a *app) endEmergency(who string, deed deeds.EndEmergency, with []string) error {
	return a.actOn(who, func(d *desk.Desk, who string) (desk.Done, error) {
		done, err := d.EndEmergency(who, deed, with...)
		lift := new(deeds.LiftError)
		if !errors.As(err, &lift) || !a.mayAsk() {
			return done, err
		}
		if deed.Sure = a.lifted(err); deed.Sure == nil {
			deed.Broke = "" // he is back all the same, and what is marked stays so
		}
		return d.EndEmergency(who, deed, with...)
	})
}

func (a *app) emergencyClose() *cobra.Command {
	var note string
	cmd := &cobra.Command{
		Use: "close [PLAYER]", Short: "what was mended for the moment is mended for good",
		Example: "  steeltally emergency close 8 --note \"new holder riveted on\"",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(strings.Join(args, ""), func(d *desk.Desk, who string) (desk.Done, error) { return d.CloseEmergency(who, note) })
		},
	}
	cmd.Flags().StringVar(&note, "note", "", "how")
	return cmd
}
