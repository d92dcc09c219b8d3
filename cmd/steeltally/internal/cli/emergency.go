package cli

import (
	"fmt"
	"slices"
	"strings"

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
steeltally emergency done says it afterwards.` + "\n" + cautions,
		Example: "  steeltally emergency 8 --side right\n  steeltally emergency 8 --side right --broke holder --mode crack --zone rear-tower\n" +
			"  steeltally emergency H1-2-40",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return a.emergency(args[0], alarm) },
	}
	flags := cmd.Flags()
	flags.Var(sideFlag(&alarm.Side), "side", "left or right")
	flags.StringVar(&alarm.Pair, "pair", "", "the pair that he was on, by role or number; the first unless told")
	flags.StringVar(&alarm.Broke, "broke", "", "holder or runner, where that is known already")
	flags.StringVar(&alarm.Mode, "mode", "", "how: "+list(inventory.Modes()))
	flags.StringVar(&alarm.Zone, "zone", "", "where: "+list(inventory.Zones()))
	completeWords(cmd, "mode", inventory.Modes())
	completeWords(cmd, "zone", inventory.Zones())
	cmd.AddCommand(a.emergencyDone(), a.emergencyClose())
	return cmd
}

// emergency marks what may be broken and says what helps. The book is closed again
// before the clock runs, so that others can use it.
func (a *app) emergency(who string, alarm desk.Alarm) error {
	var rescue desk.Rescue
	var done desk.Done
	err := a.withDesk(func(d *desk.Desk) (err error) {
		if alarm.Who, err = a.player(d, who); err != nil {
			return err
		}
		rescue, done, err = d.Emergency(alarm)
		return err
	})
	if err != nil {
		return err
	}
	if a.json {
		return a.voice.object(struct {
			desk.Rescue
			Recorded any `json:"recorded"`
		}{rescue, doneObject(done, nil)["recorded"]})
	}
	a.sayRescue(rescue)
	if !a.mayAsk() {
		a.voice.notice(inventory.Notice{Text: "the clock runs", Hint: "afterwards: steeltally emergency done " + rescue.Typed()})
		return nil
	}
	return a.untilBack(rescue)
}

// sayRescue says what must not be skated on, and the ways back, fastest first.
func (a *app) sayRescue(rescue desk.Rescue) {
	if len(rescue.Unsafe) > 0 {
		a.voice.say("%s, %s side: DO NOT SKATE on %s", rescue.Whose(), rescue.Side, sayShort(rescue.Unsafe))
	}
	if len(rescue.Options) == 0 {
		a.voice.say("nothing in the record fits: look through the trunks, or borrow")
		return
	}
	said := 0
	for i, option := range rescue.Options {
		if i > 0 && alikeOptions(rescue.Options[i-1], option) {
			continue
		}
		said++
		a.voice.say("%d  %s  %s: %s", said, sayClock(option.Seconds), option.Text, orElse(option.Place, "place not known"))
		a.voice.say("         %s", sayShort(option.Numbers))
		var more []inventory.Number
		for _, other := range rescue.Options[i+1:] {
			if alikeOptions(option, other) {
				more = append(more, other.Numbers[0])
			}
		}
		if len(more) > 0 {
			a.voice.say("         or %s, the same", sayShort(more))
		}
		if len(option.Lacks) > 0 {
			a.voice.say("         but: %s", strings.Join(option.Lacks, "; "))
		}
	}
}

// alikeOptions tells whether two ways differ only by which of some like pieces is taken.
func alikeOptions(a, b desk.RescueOption) bool {
	return a.What == b.What && a.Text == b.Text && a.Place == b.Place && a.Seconds == b.Seconds && slices.Equal(a.Lacks, b.Lacks)
}

// sayShort writes numbers in their form for people.
func sayShort(numbers []inventory.Number) string {
	short := make([]string, len(numbers))
	for i, n := range numbers {
		short[i] = n.Short()
	}
	return strings.Join(short, " ")
}

// sayClock is a time as a clock shows it: 1:30.
func sayClock(seconds int) string { return fmt.Sprintf("%d:%02d", seconds/60, seconds%60) }

func (a *app) emergencyDone() *cobra.Command {
	deed := inventory.EndEmergency{}
	var with []string
	cmd := &cobra.Command{
		Use: "done [PLAYER]", Short: "how the player got back on the ice, and what had broken",
		Long: `Say how a player got back on the ice: ` + list(inventory.Remedies()) + `.
On the spare pair or on borrowed things is mended for the moment only: it stays open
work until steeltally emergency close.`,
		Example: "  steeltally emergency done 8 --did spare --took 2m --shifts-missed 1 --broke holder --mode crack --zone rear-tower",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			who := strings.Join(args, "")
			if deed.Did == "" && a.mayAsk() {
				return a.askDone(who, deed, a.answers().answer)
			}
			if deed.Did == "" {
				return usage("what was done? add --did, one of %s", list(inventory.Remedies()))
			}
			var err error
			if deed.With, err = desk.ScannedAll(with); err != nil {
				return err
			}
			return a.endEmergency(who, deed)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&deed.Did, "did", "", "what was done: "+list(inventory.Remedies()))
	flags.StringArrayVar(&with, "with", nil, "the pair, set or holder that helped")
	flags.StringVar(&deed.Broke, "broke", "", "holder, runner or nothing")
	flags.StringVar(&deed.Mode, "mode", "", "how: "+list(inventory.Modes()))
	flags.StringVar(&deed.Zone, "zone", "", "where: "+list(inventory.Zones()))
	flags.StringVar(&deed.Cause, "cause", "", "what did it: "+list(inventory.Causes()))
	flags.Var(minutesFlag(&deed.Minutes), "took", "until the player was back, such as 2m")
	flags.Var(countFlag(&deed.ShiftsMissed), "shifts-missed", "shifts that he missed")
	flags.BoolVar(&deed.Permanent, "for-good", false, "nothing is left to be mended")
	flags.StringVar(&deed.Note, "note", "", "anything else")
	completeWords(cmd, "did", inventory.Remedies())
	return cmd
}

func (a *app) endEmergency(who string, deed inventory.EndEmergency) error {
	return a.actOn(who, func(d *desk.Desk, who string) (desk.Done, error) { return d.EndEmergency(who, deed) })
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
