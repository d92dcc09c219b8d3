package cli

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) foundVerb() *cobra.Command {
	finder := finder{app: a}
	cmd := &cobra.Command{
		Use: "found [INSCRIPTION…]", Short: "old steel that carries only marker strokes", GroupID: groupDay,
		Long: `Enter old removed runners that carry nothing but what a marker pen wrote: type it as it
stands, such as 17l1124, "8 R nov 23" or "24.11. #38 LH //". Sweater, side, date and strokes
are read out of it, in any order, as vague as they are; the text is kept. A stroke / stands
for the pair before. What stands in brackets is not read: "17 L [31/31]". Each gets a number
and a tie-on tag. They are counted among the removed steel and left out of wear.

Where it can be read in several ways, such as 11/24, a person is asked, and the answer holds
for dates of that sort until the program ends. Where nobody can answer it is refused, unless
--dates says how dates are meant; several are parted by commas.

Without an inscription it takes one after another: a line each, u takes the last one back,
Enter alone ends. A player's name, side or date that is not on the steel can be given. Who
wore a sweater in an earlier season: steeltally player set 17 --sweater 38 --season 2023/24.`,
		Example: "  steeltally found --print bench\n" +
			"  steeltally found \"17 L 11/24\" --dates my --place \"bin 3\" --out tags.pdf\n" +
			"  steeltally found \"31\" --side right --date 2023/24",
		RunE: a.uses(func(d *desk.Desk, args []string) error {
			if finder.desk = d; len(args) == 0 {
				return finder.loop()
			}
			return finder.all(args)
		}),
	}
	flags, old := cmd.Flags(), &finder.old
	flags.StringVar(&old.Player, "player", "", "whose it was")
	flags.Var(sideFlag(&old.Side), "side", "its side")
	flags.StringVar(&old.CameOff, "date", "", "when it came off: 2024-11, 2024, 2023/24, 24 Nov 24, unknown")
	flags.Var(datesFlag(&old.Hand), "dates", "how dates are meant: dm (3/4 is 3 April), md (4 March) or my (11/24 is November 2024)")
	flags.StringVar(&old.Place.Name, "place", "", "where it lies now: a place, or a scanned bin")
	finder.out.addFlags(cmd)
	return cmd
}

// finder enters old pieces.
type finder struct {
	app    *app
	desk   *desk.Desk
	old    desk.OldPiece // what is told of all of them
	out    tagOutput
	pieces []desk.FoundPiece
	failed []error   // lines that were not entered
	done   desk.Done // of all pieces
}

// all enters what was given on the command line, once all of it is understood, and brings
// out the tags together.
func (f *finder) all(inscriptions []string) error {
	var readings []desk.OldReading
	for _, text := range inscriptions {
		reading, err := f.read(text)
		if err != nil {
			return err
		}
		readings = append(readings, reading)
	}
	for _, reading := range readings {
		if err := f.enter(reading); err != nil {
			f.app.voice.doneBefore(f.done, f.entered())
			return err
		}
	}
	return f.finish(f.numbers())
}

func (f *finder) numbers() []inventory.Number {
	numbers := []inventory.Number{}
	for _, piece := range f.pieces {
		numbers = append(numbers, piece.Number)
	}
	return numbers
}

// entered is what became of all pieces, for programs.
func (f *finder) entered() answer { return answer{Numbers: f.numbers(), Found: f.pieces} }

// loop takes one inscription after another, each a line. A program gets a line a piece.
func (f *finder) loop() error {
	for lines := f.app.answers(); ; {
		if f.app.mayAsk() {
			f.app.voice.ask("written on it> ")
		}
		if lines.next(); lines.text == "" || lines.text == "q" {
			break
		}
		f.app.voice.before = []any{answer{Inscription: lines.text}}
		if err := f.line(lines.text); err != nil {
			if codeOf(err) == exitFailed || codeOf(err) == exitDamaged {
				return err
			}
			f.app.voice.fail(err)
			f.failed = append(f.failed, err)
		}
		f.app.voice.before = nil
	}
	return f.end()
}

func (f *finder) end() error {
	if f.app.json && len(f.pieces)+len(f.failed) == 0 {
		return usage("what is written on it? steeltally found \"17 L nov 24\"")
	}
	f.app.voice.say("%s entered", desk.SayCount(len(f.pieces), "old piece"))
	var err error
	switch {
	case f.out.printer != "":
		err = f.finish(nil)
	case !f.app.json || f.out.out != "":
		err = f.finish(f.numbers())
	}
	if err == nil && len(f.failed) > 0 && !f.app.mayAsk() {
		err = &toldError{fmt.Errorf("%s not entered: %w", desk.SayCount(len(f.failed), "line"), f.failed[0])}
	}
	return err
}

// line enters one piece, or takes the last one back. On a printer its tag comes out at
// once, so that it is tied on while the piece is in the hand.
func (f *finder) line(text string) error {
	if text == "u" {
		return f.undo()
	}
	reading, err := f.read(text)
	if err == nil {
		err = f.enter(reading)
	}
	if err == nil {
		err = f.app.voice.told(f.pieces[len(f.pieces)-1])
	}
	if err != nil || f.out.printer == "" {
		return err
	}
	printed, err := f.app.tagsAfter(f.desk, f.out, f.numbers()[len(f.pieces)-1:])
	if err != nil {
		return err
	}
	f.app.sayTags(printed)
	return nil
}

// finish brings out the tags that did not come out yet, and says what is to be said of
// all pieces.
func (f *finder) finish(untagged []inventory.Number) error {
	f.tellUnknown()
	printed, err := f.app.tagsAfter(f.desk, f.out, untagged)
	if err != nil {
		f.app.voice.doneBefore(f.done, f.entered())
		return err
	}
	f.done.Notices = append(f.done.Notices, printed.Notices...)
	if f.app.json {
		return f.app.voice.done(f.done, f.entered(), tagsIn(printed))
	}
	f.app.voice.notices(f.done.Notices)
	f.app.sayTags(printed)
	return nil
}

// tellUnknown says of how many pieces nobody is known to have worn the sweater.
func (f *finder) tellUnknown() {
	count, hint := 0, "if you know whose one was: steeltally undo NUMBER, then steeltally found again with --player"
	for _, piece := range slices.Backward(f.pieces) {
		if piece.Player != 0 || piece.Sweater == 0 {
			continue
		}
		if count++; !piece.CameOff.Unknown() {
			hint = fmt.Sprintf("if you know who wore it: steeltally player set PLAYER --sweater %d --season %s; his are then his", piece.Sweater, piece.CameOff.Season(f.desk.Zone()))
		}
	}
	if count > 0 {
		f.done.Notices = append(f.done.Notices, inventory.Notice{
			Text: fmt.Sprintf("of %s nobody is known to have worn the sweater then: kept by the sweater", desk.SayCount(count, "piece")), Hint: hint,
		})
	}
}

var answersOnly = regexp.MustCompile(`^(?i:[a-fny]|yes|no)$`)

// read makes out what is written on a piece and whose it was, by asking where there are
// several ways and a person can answer.
func (f *finder) read(text string) (reading desk.OldReading, err error) {
	if answersOnly.MatchString(text) {
		return reading, inventory.RefuseValue(fmt.Sprintf("%q is an answer, and nothing was asked", text), "type what is written on the steel; a letter alone goes in brackets: [B]")
	}
	f.old.Inscription = text
	ways, err := f.desk.ReadOld(f.old)
	if err != nil {
		return reading, err
	}
	if len(ways) > 1 && f.app.mayAsk() {
		reading, err = f.whichWay(ways)
	} else {
		reading, err = f.desk.OneReading(ways)
	}
	if err != nil || reading.Player != 0 || !f.app.mayAsk() {
		return reading, err
	}
	return reading, f.askWhose(&reading)
}

// whichWay asks how an inscription is meant; how its date is holds for the rest.
func (f *finder) whichWay(ways []desk.OldReading) (desk.OldReading, error) {
	var letters []string
	for i, way := range ways {
		letters = append(letters, string(rune('a'+i)))
		f.app.voice.ask("%s  %s\n", letters[i], way.Say("", f.desk.Zone()))
	}
	answer, err := f.ask(fmt.Sprintf("%q: which is it", f.old.Inscription), letters...)
	if err != nil {
		return desk.OldReading{}, err
	}
	way := ways[slices.Index(letters, answer)]
	if way.Order != "" {
		f.old.Hand = append(f.old.Hand, way.Order)
		f.app.voice.ask("such dates are read so from here on\n")
	}
	return way, nil
}

// ask asks until an answer is one of those that can be; u leaves the piece out.
func (f *finder) ask(question string, answers ...string) (string, error) {
	for {
		f.app.voice.ask("%s? (%s) ", question, strings.Join(answers, "/"))
		lines := f.app.answers()
		more := lines.next()
		switch answer := strings.ToLower(lines.text); {
		case slices.Contains(answers, answer):
			return answer, nil
		case answer == "u" || !more:
			return "", inventory.Refuse(fmt.Sprintf("%q was left out", f.old.Inscription), "type it again when you know")
		case lines.text != "":
			f.app.voice.ask("%q is no answer, and was not entered; u leaves this piece out\n", lines.text)
		}
	}
}

// enter enters a piece as it was read.
func (f *finder) enter(reading desk.OldReading) error {
	piece, done, err := f.desk.FindOld(reading)
	if err != nil {
		return err
	}
	f.pieces = append(f.pieces, piece)
	f.done.Events, f.done.Lines = append(f.done.Events, done.Events...), append(f.done.Lines, done.Lines...)
	f.app.voice.say("%s  %s", piece.Number.Short(), piece.Read)
	return nil
}

// askWhose finds whose it was, by asking: those who wear the sweater now may have worn it
// then.
func (f *finder) askWhose(reading *desk.OldReading) error {
	for _, member := range reading.Candidates {
		answer, err := f.ask(fmt.Sprintf("was it %s's", member.Name), "y", "n")
		if err != nil {
			return err
		}
		if answer == "y" {
			reading.Player = member.Player
			return nil
		}
	}
	return nil
}

func (f *finder) undo() error {
	if len(f.pieces) == 0 {
		return &inventory.Refusal{Reason: "nothing was entered yet", Hint: "type what is written on the steel"}
	}
	done, err := f.desk.Correct(desk.Correction{About: f.pieces[len(f.pieces)-1].Number.String()})
	if err != nil {
		return err
	}
	f.pieces = f.pieces[:len(f.pieces)-1]
	return f.app.voice.done(done)
}
