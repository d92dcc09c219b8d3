package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) foundVerb() *cobra.Command {
	old := desk.OldPiece{}
	out := tagOutput{}
	cmd := &cobra.Command{
		Use: "found [INSCRIPTION…]", Short: "old steel that carries only marker strokes", GroupID: groupDay,
		Long: `Enter old removed runners that carry nothing but what a marker pen wrote: type it as it
stands, such as 17l1124 or "8 R nov 23". Sweater, side and date are read out of it, as
vague as they are; the text is kept. Each gets a number and a tie-on tag. They are counted
among the removed steel and left out of wear.

Without an inscription it asks for one after another: a line each, u takes the last one
back, Enter alone ends. A player's name, side or date that is not on the steel can be given.`,
		Example: "  steeltally found --print bench\n" +
			"  steeltally found \"17 L 11/24\" --place \"bin 3\" --out tags.pdf\n" +
			"  steeltally found \"31\" --side right --date 2023/24",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && a.json {
				return usage("what is written on it? steeltally found \"17 L 11/24\"")
			}
			return a.withDesk(func(d *desk.Desk) error {
				finder := &finder{app: a, desk: d, old: old, out: out, numbers: []inventory.Number{}}
				if len(args) == 0 {
					return finder.loop()
				}
				return finder.all(args)
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&old.Player, "player", "", "whose it was")
	flags.Var(sideFlag(&old.Side), "side", "its side")
	flags.StringVar(&old.CameOff, "date", "", "when it came off: 2024-11, 2024, 2023/24, unknown")
	flags.StringVar(&old.Place.Name, "place", "", "where it lies now: a place, or a scanned bin")
	out.addFlags(cmd)
	return cmd
}

// finder enters old pieces.
type finder struct {
	app     *app
	desk    *desk.Desk
	old     desk.OldPiece
	out     tagOutput
	answer  func() string
	numbers []inventory.Number
	unknown []inventory.Number // those whose sweater nobody is known to have worn then
	done    desk.Done          // of all pieces
}

// all enters what was given on the command line, and brings out the tags together.
func (f *finder) all(inscriptions []string) error {
	f.answer = func() string {
		answers := f.app.answers()
		answers.next()
		return answers.text
	}
	for _, text := range inscriptions {
		if err := f.enter(text); err != nil {
			f.app.voice.doneBefore(f.done, answer{Numbers: f.numbers})
			return err
		}
	}
	return f.finish(f.numbers)
}

// loop asks for one inscription after another, each a line.
func (f *finder) loop() error {
	lines := f.app.answers()
	f.answer = func() string {
		lines.next()
		return lines.text
	}
	for {
		if f.app.mayAsk() {
			f.app.voice.ask("written on it> ")
		}
		text := f.answer()
		if text == "" || text == "q" {
			break
		}
		if err := f.line(text); err != nil {
			if codeOf(err) == exitFailed || codeOf(err) == exitDamaged {
				return err
			}
			f.app.voice.fail(err)
		}
	}
	f.app.voice.say("%s entered", desk.SayCount(len(f.numbers), "old piece"))
	if f.out.printer != "" {
		return f.finish(nil)
	}
	return f.finish(f.numbers)
}

// line enters one piece, or takes the last one back. On a printer its tag comes out at
// once, so that it is tied on while the piece is in the hand.
func (f *finder) line(text string) error {
	if text == "u" {
		return f.undo()
	}
	if err := f.enter(text); err != nil || f.out.printer == "" {
		return err
	}
	printed, err := f.app.tagsAfter(f.desk, f.out, f.numbers[len(f.numbers)-1:])
	if err != nil {
		return err
	}
	f.app.sayTags(printed)
	return nil
}

// finish brings out the tags that did not come out yet, and says what is to be said of
// all pieces.
func (f *finder) finish(untagged []inventory.Number) error {
	if len(f.unknown) > 0 {
		f.done.Notices = append(f.done.Notices, inventory.Notice{
			Text: fmt.Sprintf("of %s nobody is known to have worn the sweater then: kept by the sweater", desk.SayCount(len(f.unknown), "piece")),
			Hint: "if you know whose one was: steeltally undo NUMBER, then steeltally found again with --player",
		})
	}
	printed, err := f.app.tagsAfter(f.desk, f.out, untagged)
	if err != nil {
		f.app.voice.doneBefore(f.done, answer{Numbers: f.numbers})
		return err
	}
	f.done.Notices = append(f.done.Notices, printed.Notices...)
	if f.app.json {
		return f.app.voice.done(f.done, answer{Numbers: f.numbers}, tagsIn(printed))
	}
	f.app.voice.notices(f.done.Notices)
	f.app.sayTags(printed)
	return nil
}

func (f *finder) enter(text string) error {
	old := f.old
	old.Inscription = text
	reading, err := f.desk.ReadOld(old)
	if err != nil {
		return err
	}
	whose, err := f.askWhose(&reading)
	if err != nil {
		return err
	}
	n, done, err := f.desk.FindOld(reading)
	if err != nil {
		return err
	}
	f.numbers = append(f.numbers, n)
	if reading.Player == 0 && reading.Sweater != 0 {
		f.unknown = append(f.unknown, n)
	}
	f.done.Events, f.done.Lines = append(f.done.Events, done.Events...), append(f.done.Lines, done.Lines...)
	f.app.voice.say("%s  %s", n.Short(), f.understood(reading, whose))
	return nil
}

// askWhose finds whose it was, by asking where a person can answer: those who wear the
// sweater now may have worn it then.
func (f *finder) askWhose(reading *desk.OldReading) (string, error) {
	if reading.Player == 0 && f.app.mayAsk() {
		for _, member := range reading.Candidates {
			f.app.voice.ask("was it %s's? (y/n) ", member.Name)
			if answer := strings.ToLower(f.answer()); answer == "y" || answer == "yes" {
				reading.Player = member.Player
				break
			}
		}
	}
	if reading.Player == 0 {
		return "", nil
	}
	return f.desk.NameOf(reading.Player)
}

// understood says what was made of an inscription: "17 Ansgar Lindqvarn, left, Nov 2024".
func (f *finder) understood(reading desk.OldReading, whose string) string {
	parts := []string{"no sweater", "no side", reading.CameOff.SayDay(f.desk.Zone())}
	switch {
	case whose != "":
		parts[0] = whose
	case reading.Sweater != 0:
		parts[0] = fmt.Sprintf("sweater %d", reading.Sweater)
	}
	if reading.Side != "" {
		parts[1] = string(reading.Side)
	}
	return strings.Join(parts, ", ")
}

func (f *finder) undo() error {
	if len(f.numbers) == 0 {
		return &inventory.Refusal{Reason: "nothing was entered yet", Hint: "type what is written on the steel"}
	}
	last := f.numbers[len(f.numbers)-1]
	done, err := f.desk.Correct(desk.Correction{About: last.String()})
	if err != nil {
		return err
	}
	f.numbers = f.numbers[:len(f.numbers)-1]
	f.unknown = slices.DeleteFunc(f.unknown, func(n inventory.Number) bool { return n == last })
	return f.app.voice.done(done)
}
