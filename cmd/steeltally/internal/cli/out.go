package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) outVerb() *cobra.Command {
	off := desk.Off{}
	out := tagOutput{}
	cmd := &cobra.Command{
		Use: "out PLAYER|PAIR|RUNNER", Short: "take steel off: a whole set, one side, or one runner", GroupID: groupDay,
		Long: `Take steel off. With a reason that ends its life (low, broken, cracked, bent, chipped,
recall, other) the steel is done with and gets a tie-on tag; with rotate, hollow or
trial the set stays ready.

Where something broke, note the damage first: it is then the reason, only the damaged
runner is done with, and its mate can be matched anew.` + "\n" + handCautions,
		Example: "  steeltally out 17 --reason low --left-height 9.4 --right-height 9.6\n" +
			"  steeltally out R1-42-51 --reason broken",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			off.Who = args[0]
			return a.takeOff(&off, out, func(d *desk.Desk) (desk.Done, error) { return d.TakeOut(off) })
		},
	}
	addOffFlags(cmd, &off)
	out.addFlags(cmd)
	cmd.Flags().Var(sideFlag(&off.Side), "side", "one side only")
	return cmd
}

func (a *app) changeVerb() *cobra.Command {
	off := desk.Off{}
	out := tagOutput{}
	cmd := &cobra.Command{
		Use: "change PLAYER SET", Short: "one set off, another on; the tags of the old steel come out", GroupID: groupDay,
		Long:    "Take one set off and put another on as one action; the tags of the old steel come out." + "\n" + handCautions,
		Example: "  steeltally change 17 B --reason low --left-height 9.4 --right-height 9.6 --out tags.pdf",
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			off.Who = args[0]
			return a.takeOff(&off, out, func(d *desk.Desk) (desk.Done, error) { return d.Change(off, args[1]) })
		},
	}
	addOffFlags(cmd, &off)
	out.addFlags(cmd)
	return cmd
}

func addOffFlags(cmd *cobra.Command, off *desk.Off) {
	flags := cmd.Flags()
	flags.StringVar(&off.Pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	wordFlag(cmd, &off.Reason, "reason", "why (unless told what is noted as broken, else low)", inventory.Reasons())
	flags.Var(heightFlag(&off.Heights.Left), "left-height", "final height of the left runner, loose, in the middle")
	flags.Var(heightFlag(&off.Heights.Right), "right-height", "final height of the right runner")
	flags.BoolVar(&off.AsRead, "as-read", false, "keep a height that looks like a slip")
}

// takeOff takes steel off and gets the tags of what is done with.
func (a *app) takeOff(off *desk.Off, out tagOutput, take func(*desk.Desk) (desk.Done, error)) error {
	return a.withDesk(func(d *desk.Desk) error {
		who, err := a.playerToAct(d, off.Who)
		if err != nil {
			return err
		}
		off.Who = who
		reason, doubt, err := d.WhyOff(*off)
		if err != nil {
			return err
		}
		off.Reason = reason
		done, err := take(d)
		if err != nil {
			return err
		}
		retired := done.Retired()
		printed, err := a.tagsAfter(d, out, retired)
		if err != nil {
			a.voice.doneBefore(done, removed{retired})
			return err
		}
		notices := printed.Notices
		if doubt.Text != "" {
			notices = append(notices, doubt)
		}
		if len(retired) == 0 && (out.out != "" || out.printer != "") {
			notices = append(notices, inventory.Notice{Text: "no tag came out: the steel is not done with", Hint: "steeltally set list shows what is ready"})
		}
		if err := a.voice.done(done.With(notices), removed{retired}, tagsIn(printed)); err != nil {
			return err
		}
		a.sayTags(printed)
		return nil
	})
}

// removed are the runners that are done with.
type removed struct {
	Runners []inventory.Number `json:"removed"`
}

func (a *app) inVerb() *cobra.Command {
	var pair string
	cmd := &cobra.Command{
		Use: "in PLAYER SET", Short: "put a set on a player's pair", GroupID: groupDay,
		Long:    "Put a set on the pair that a player skates on, or on the one that is named." + "\n" + handCautions,
		Example: "  steeltally in 17 A\n  steeltally in 17 B --pair spare",
		Args:    cobra.ExactArgs(2),
		RunE:    a.actsOn(func(d *desk.Desk, who string, args []string) (desk.Done, error) { return d.PutIn(who, args[1], pair) }),
	}
	cmd.Flags().StringVar(&pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	return cmd
}
