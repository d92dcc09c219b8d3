package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) emergencyVerb() *cobra.Command {
	alarm := desk.Alarm{}
	cmd := &cobra.Command{
		Use: "emergency PLAYER|PAIR|HOLDER|RUNNER", Short: "something broke: what gets the player back, fastest first", GroupID: groupDay,
		Long: `Say that a player came off with something broken. What may be broken is marked at once:
nobody skates on it until somebody looked. Then what fits and where it is, fastest first:
a ready set where the holder is sound, another pair, a holder with matched steel.
Scan the holder or the runner itself when that is what broke.

At a terminal the clock runs until Enter, then it asks what was done; elsewhere
steeltally emergency done says it afterwards.` + "\n" + cautions + handCautions,
		Example: "  steeltally emergency 8 --side right\n  steeltally emergency 8 --side right --broke holder --mode crack --zone rear-tower\n" +
			"  steeltally emergency H1-2-40",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return a.emergency(args[0], alarm) },
	}
	flags := cmd.Flags()
	flags.Var(sideFlag(&alarm.Side), "side", "left or right")
	flags.StringVar(&alarm.Pair, "pair", "", "the pair that he was on, by role or number; the first unless told")
	flags.StringVar(&alarm.Broke, "broke", "", "holder or runner, where that is known already")
	wordFlag(cmd, &alarm.Mode, "mode", "how", inventory.Modes())
	wordFlag(cmd, &alarm.Zone, "zone", "where", inventory.Zones())
	completeWords(cmd, "broke", []string{"holder", "runner"})
	cmd.AddCommand(a.emergencyDone(), a.emergencyClose())
	return cmd
}

// emergency marks what may be broken and says what helps. The book is closed again
// before the clock runs, so that others can use it.
func (a *app) emergency(who string, alarm desk.Alarm) error {
	var rescue desk.Rescue
	var done desk.Done
	err := a.atOnce(func(d *desk.Desk) (err error) {
		if alarm.Who, err = a.playerToAct(d, who); err != nil {
			return err
		}
		rescue, done, err = d.Emergency(alarm)
		return err
	})
	if err != nil {
		return err
	}
	a.sayRescue(rescue)
	if !a.mayAsk() {
		a.voice.notice(inventory.Notice{Text: "the clock runs", Hint: "afterwards: steeltally emergency done " + rescue.Typed()})
		return a.voice.told(rescue, recorded(done))
	}
	return a.untilBack(rescue)
}
