package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) setasideVerb() *cobra.Command {
	cmd := &cobra.Command{
		Use: "setaside", Short: "entries that are not in the record: take them in, or put them away", GroupID: groupBook,
		Long: `List the entries that were set aside when another book was merged or this one rebuilt:
they contradict what is here, because two copies of a folder went on as one, or they
can't be.

take enters them as new entries of this book, which can be taken back; each comes in
once, at whatever station it is taken in. drop puts them away.`,
		Example: "  steeltally setaside\n  steeltally setaside take 812@c3a9\n  steeltally setaside take --all\n  steeltally setaside drop 812@c3a9",
		Args:    cobra.NoArgs,
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			asides, err := d.Asides()
			if err != nil {
				return err
			}
			a.sayAsides(asides)
			return a.voice.told(answer{SetAside: asides})
		}),
	}
	cmd.AddCommand(a.asideVerb("take", "enter them as new entries of this book", func(d *desk.Desk, entries []string, all bool) error {
		done, err := d.TakeAside(entries, all)
		if err != nil {
			return err
		}
		if len(done.Events) == 0 {
			a.voice.say("nothing is set aside")
		}
		return a.voice.done(done)
	}), a.asideVerb("drop", "put them away", func(d *desk.Desk, entries []string, all bool) error {
		count, err := d.DropAside(entries, all)
		if err != nil {
			return err
		}
		if count == 0 {
			a.voice.say("nothing is set aside")
		} else {
			a.voice.say("%s put away; set-aside.jsonl in the book's folder keeps them", desk.SayEntries(count))
		}
		return a.voice.told(answer{Dropped: &count})
	}))
	return cmd
}

// asideVerb does something with entries that are named, or with all.
func (a *app) asideVerb(use, short string, act func(d *desk.Desk, entries []string, all bool) error) *cobra.Command {
	all := false
	cmd := &cobra.Command{
		Use: use + " [ENTRY…]", Short: short,
		Example: "  steeltally setaside " + use + " 812@c3a9\n  steeltally setaside " + use + " --all",
		RunE: func(_ *cobra.Command, args []string) error {
			if all == (len(args) > 0) {
				return usage("name entries such as 812@c3a9, or say --all")
			}
			return a.withDesk(func(d *desk.Desk) error { return act(d, args, all) })
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "all that are set aside")
	return cmd
}

func (a *app) sayAsides(asides []desk.Aside) {
	if len(asides) == 0 {
		a.voice.say("nothing is set aside")
	}
	for _, one := range asides {
		if one.Unsafe != "" {
			a.voice.say("%s (%s)", one.Unsafe, one.Entry)
		}
	}
	reason := ""
	for _, one := range asides {
		if one.Reason != reason {
			reason = one.Reason
			a.voice.say("%s:", reason)
		}
		a.voice.say("  %s  %s  %s", one.Entry, one.Happened, one.What)
	}
}
