package cli

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
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

// untilBack lets the clock run on the screen until the player is back, then asks what
// was done. The book is closed meanwhile.
func (a *app) untilBack(rescue desk.Rescue) error {
	input := a.answers()
	pressed := make(chan bool, 1)
	var fault error
	go func() {
		enter := false
		fault = inventory.Guard(func() error { enter = input.next(); return nil })
		pressed <- enter
	}()
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		took := a.world.Now().Sub(rescue.Since)
		a.voice.ask("\r%s  Enter when he is back  ", desk.SayClock(int(took.Seconds())))
		select {
		case <-tick.C:
		case enter := <-pressed:
			a.voice.ask("\n")
			if !enter {
				return fault
			}
			minutes := float64(int(a.world.Now().Sub(rescue.Since).Seconds())) / 60
			return a.askDone(rescue, rescue.Player.String(), deeds.EndEmergency{Minutes: &minutes}, nil, input.answer)
		}
	}
}

// answer is the next line; nothing where there is none any more.
func (l *lines) answer() string {
	if !l.next() {
		return ""
	}
	return l.text
}

// askDone asks what was done after an emergency and records it, with what helped.
func (a *app) askDone(rescue desk.Rescue, who string, deed deeds.EndEmergency, with []string, answer func() string) error {
	if len(with) > 0 {
		rescue.Options = nil // what helped is said
	}
	inquiry := jig.Inquire(rescue, deed)
	for question, more := inquiry.Ask(); more; question, more = inquiry.Ask() {
		a.sayQuestion(question)
		inquiry.Answer(answer())
	}
	if inquiry.Deed.Did == "" {
		a.voice.notice(inventory.Notice{Text: "left open", Hint: fmt.Sprintf("steeltally emergency done %s when there is time", who)})
		return nil
	}
	return a.endEmergency(who, inquiry.Deed, with)
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
	for i, way := range rescue.Ways() {
		a.voice.say("%d  %s  %s: %s", i+1, way.Clock(), way.Text, cmp.Or(way.Place, "place not known"))
		a.voice.say("         %s", sayShort(way.Numbers))
		if len(way.OrElse) > 0 {
			a.voice.say("         or %s, the same", sayShort(way.OrElse))
		}
		if len(way.Lacks) > 0 {
			a.voice.say("         but: %s", strings.Join(way.Lacks, "; "))
		}
	}
}

// sayShort writes numbers in their form for people.
func sayShort(numbers []inventory.Number) string {
	short := make([]string, len(numbers))
	for i, n := range numbers {
		short[i] = n.Short()
	}
	return strings.Join(short, " ")
}

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
					rescue, err = d.OpenRescue(who, deed.Side)
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
	flags.Var(sideFlag(&deed.Side), "side", "of two emergencies of his, the one on this side: left or right")
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
