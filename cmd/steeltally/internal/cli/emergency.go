package cli

import (
	"cmp"
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
