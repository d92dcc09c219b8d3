package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/demo"
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) demoVerb() *cobra.Command {
	var dir string
	o := demo.Options{}
	cmd := &cobra.Command{
		Use: "demo --dir DIR", Short: "make an invented club's book and print from it", GroupID: groupBook,
		Long: `Make the book of an invented club with one and a half seasons of work, and print its
tags, its spare pairs and a review. Everything in it is invented; the same seed and
day make the same book. --events makes a larger one, by more seasons.`,
		Example: "  steeltally demo --dir out\n  steeltally demo --dir big --events 1000000",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if a.book != "" {
				return usage("the book comes into --dir, as book: leave --book out")
			}
			var err error
			if o.End, err = a.demoEnd(); err != nil {
				return err
			}
			o.Progress = a.progress("playing the seasons")
			return a.demo(cmd, dir, o)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&dir, "dir", "", "the folder to make everything in")
	flags.IntVar(&o.Events, "events", 0, "about how many entries; 40,000 unless told")
	flags.Uint64Var(&o.Seed, "seed", 1, "another number makes another club")
	cmd.MarkFlagRequired("dir")
	return cmd
}

// demoEnd is the day on which the demonstration ends: --at, or today.
func (a *app) demoEnd() (time.Time, error) {
	if a.at == "" {
		return a.world.Now(), nil
	}
	end, err := inventory.ParseWhen(a.at, time.UTC)
	if err != nil || end.Unknown() {
		return time.Time{}, usage("--at %s is not a day", a.at)
	}
	return end.Start, nil
}

func (a *app) demo(cmd *cobra.Command, dir string, o demo.Options) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	book := filepath.Join(dir, "book")
	summary, err := demo.Write(cmd.Context(), book, o)
	if err != nil {
		return err
	}
	a.voice.stands("the book is made: it is in " + book)
	options := a.options()
	options.Book, options.At = book, o.End.Format(time.RFC3339)
	options.Now = func() time.Time { return o.End } // the tags come out on the book's last day
	return a.with(desk.Open, options, func(d *desk.Desk) error {
		show, err := d.PrintShowcase(dir)
		if err != nil {
			return err
		}
		a.voice.stands("the book is made, and what was printed from it: they are in " + dir)
		return a.sayDemo(book, summary, show)
	})
}

func (a *app) sayDemo(book string, s demo.Summary, show desk.Showcase) error {
	s.Events += show.Noted
	a.voice.say("an invented club: %d runners, %d of them removed, in %d entries", s.Runners, s.Removed, s.Events)
	a.voice.say("  %s  the runners removed in the last month", show.Tags)
	a.voice.say("  %s  the spare pairs", show.Pairs)
	a.voice.say("  %s  the club: a page for the wall, then one a player", show.Review)
	a.voice.say("\nprint at actual size. Then try the screen:")
	a.voice.say("  steeltally station --book %s", book)
	a.voice.say("or, with this book:")
	a.voice.say("  export STEELTALLY_BOOK=%s", book)
	for _, line := range []string{
		"due", "spares --worst", "history 17", "grind all --but 7,19", "scan", "emergency 8 --side right", "work", "undo", "review 17",
	} {
		a.voice.say("  steeltally %s", line)
	}
	return a.voice.told(answer{Book: book}, show, s)
}

// progress shows on a terminal how far a long work is; it is quiet in a pipe.
func (a *app) progress(what string) func(done, of int) {
	if !a.mayAsk() {
		return nil
	}
	shown := -1
	return func(done, of int) {
		if percent := 100 * done / max(of, 1); percent != shown {
			shown = percent
			fmt.Fprintf(a.world.Stderr, "\r%s: %d %%", what, percent)
		}
		if done >= of {
			fmt.Fprint(a.world.Stderr, "\r\x1b[K")
		}
	}
}
