package cli

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

func (a *app) clockVerb() *cobra.Command {
	return parent(&cobra.Command{
		Use: "clock", Short: "this machine's clock, and what was noted while one was in doubt", GroupID: groupBook,
		Long: `Show what this machine's clock says, and what was noted while a clock was in doubt: more
than a minute before the entry before, or more than a day after it with none between. At a
terminal and at the screen that is asked about; where nobody can answer it is recorded and
flagged.

A clock that was right after all is settled with clock right. What a wrong one dated is set
right with clock set, a whole season in one entry; what a person dated with --at stays.`,
		Example: "  steeltally clock\n  steeltally clock right\n  steeltally clock set --was 2026-04-13T09:10",
		Args:    cobra.NoArgs,
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			state, err := d.ClockState()
			if err != nil {
				return err
			}
			a.sayClock(d, state)
			return a.voice.told(clocksTold(state))
		}),
	}, a.clockRightVerb(), a.clockSetVerb())
}

// clocks is what is known of the clocks, for programs.
type clocks struct {
	Now    inventory.When `json:"now"`
	Last   inventory.When `json:"last_noted"`
	Doubts []clockDoubt   `json:"doubts"`
}

// clockDoubt is an entry that was noted while a clock was in doubt.
type clockDoubt struct {
	Entry string         `json:"event"`
	Noted inventory.When `json:"noted"`
	Last  inventory.When `json:"last_noted"`
}

func clocksTold(state desk.ClockState) clocks {
	told := clocks{inventory.At(state.Now), inventory.At(state.Last), []clockDoubt{}}
	for _, doubt := range state.Doubts {
		told.Doubts = append(told.Doubts, clockDoubt{doubt.Entry.String(), doubt.Noted, doubt.Last})
	}
	return told
}

func (a *app) sayClock(d *desk.Desk, state desk.ClockState) {
	a.voice.say("%s", d.SayDoubt(desk.ClockDoubt{Says: inventory.At(state.Now), Last: inventory.At(state.Last)}))
	for _, doubt := range state.Doubts {
		a.voice.say("in doubt: entry %s was noted on %s, the one before on %s", doubt.Entry, doubt.Noted.Say(d.Zone()), doubt.Last.Say(d.Zone()))
	}
	if len(state.Doubts) == 0 {
		a.voice.say("no clock is in doubt")
		return
	}
	a.voice.say("was it right: steeltally clock right; was it wrong: steeltally clock set --was TIME, when the first of them was truly made")
}

func (a *app) clockRightVerb() *cobra.Command {
	return &cobra.Command{
		Use: "right [ENTRY…]", Short: "the clock stood right: at all entries in doubt, or at these",
		Example: "  steeltally clock right\n  steeltally clock right 812@c3a9",
		RunE: func(_ *cobra.Command, args []string) error {
			return a.atOnce(func(d *desk.Desk) error {
				done, err := d.KeepClock(args...)
				return a.did(done, err)
			})
		},
	}
}

func (a *app) clockSetVerb() *cobra.Command {
	setting := desk.ClockSetting{}
	cmd := &cobra.Command{
		Use: "set [FIRST [LAST]] --was TIME|--by SHIFT", Short: "the clock stood wrong: set right what it dated",
		Long: `Set right what was noted under a clock that stood wrong: from the first entry that is in
doubt, or from the one that is named, until the clock stood otherwise, or until the last one
that is named. Say when the first of them was truly made, or by how much all of them
happened later (--by 1h) or earlier (--by -1827d2h).

Set this machine's clock first. It is one entry, which undo takes back; what the clock said
stays to be seen in the history.`,
		Example: "  steeltally clock set --was 2026-04-13T09:10\n  steeltally clock set 812@c3a9 --by -1h\n" +
			"  steeltally clock set 812@c3a9 903@c3a9 --by 366d",
		Args: cobra.MaximumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			for i, text := range []*string{&setting.First, &setting.Last} {
				if i < len(args) {
					*text = args[i]
				}
			}
			return a.atOnce(func(d *desk.Desk) error {
				done, err := d.SetClock(setting)
				return a.did(done, err)
			})
		},
	}
	cmd.Flags().StringVar(&setting.Was, "was", "", "when the first of them was truly made, such as 2026-04-13T09:10")
	cmd.Flags().Var(plain[time.Duration]{&setting.By, "shift", parseShift}, "by", "they happened so much later, or with a minus earlier: 1h, -3d12h")
	cmd.MarkFlagsMutuallyExclusive("was", "by")
	cmd.MarkFlagsOneRequired("was", "by")
	return cmd
}

// parseShift reads a length of time with days: -3d12h.
func parseShift(text string) (time.Duration, error) {
	wrong := fmt.Errorf("%q is no length of time; write 1h, 90m or -3d12h", text)
	rest, negative := strings.CutPrefix(strings.TrimPrefix(text, "+"), "-")
	var by time.Duration
	if days, after, found := strings.Cut(rest, "d"); found {
		const mostDays = 50000
		count, err := strconv.ParseUint(days, 10, 16)
		if err != nil || count > mostDays {
			return 0, wrong
		}
		by, rest = time.Duration(count)*24*time.Hour, after
	}
	if rest != "" {
		hours, err := time.ParseDuration(rest)
		if err != nil || hours < 0 {
			return 0, wrong
		}
		by += hours
	}
	if by == 0 {
		return 0, wrong
	}
	if negative {
		by = -by
	}
	return by, nil
}

// askClock asks a person about a clock that lies far from what was noted last, before
// anything is recorded under it.
func (a *app) askClock(d *desk.Desk) error {
	if !a.mayAsk() {
		return nil
	}
	doubt, err := d.ClockDoubt()
	if err != nil || doubt == nil {
		return err
	}
	a.voice.ask("%s. Is that right? (y/n) ", d.SayDoubt(*doubt))
	answer := a.answers()
	if answer.next(); !jig.IsYes(answer.text) {
		return inventory.Refuse("this machine's clock is wrong: nothing was recorded", "set this machine's clock, then enter it again")
	}
	d.TrustClock()
	return nil
}
