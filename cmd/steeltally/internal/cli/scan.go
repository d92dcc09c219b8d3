package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
)

func (a *app) scanVerb() *cobra.Command {
	var grinding, selfTest bool
	var out tagOutput
	cmd := &cobra.Command{
		Use: "scan", Short: "the loop for a hand scanner that types", GroupID: groupDay,
		Long: `Scan or type a player, pair, set or piece: what matters of it is shown. Then

  Enter      logs the usual grind, both sides
  l2  r2     two more passes left, right
  b6         logs a grind of six passes on both sides
  x          logs a grind of unknown passes
  m 11.1 11.0   notes the heights left and right, m 11.1 that of one runner; m alone asks
             for them; a caliper that types needs no m: two readings and Enter, or six
             (toe, middle, heel, left then right)
  c          puts the set that was scanned on, in place of what is on; c B is set B of
             that player; c B rotate and c B low 9.4 9.6 say why, and the old steel's heights
  i          looked at, sound
  e          the holder or runner that was scanned broke: what helps, fastest first
  el  er     something broke on that player's left, right side
  ed         he is back: what was done?
  ef         he skates on his first pair again
  u          takes the last entry back
  g          from now on each scan logs the usual grind; g again ends that
  q          ends the session and says who was not logged this session
  ?          lists the keys

The scanned action cards do the same. A grind of the same steel within 60 s asks. A name
shows; while each scan grinds it asks first. --self-test says what a scanner has to be set to.` + "\n" + cautions,
		Example: "  steeltally scan\n  steeltally scan --grind\n  steeltally scan --self-test",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if selfTest {
				return a.selfTest()
			}
			if a.json || a.at != "" || a.key != "" {
				return usage("scan talks to a person, about now, and records more than once: leave --json, --at and --key out")
			}
			err := a.withDesk(func(d *desk.Desk) error {
				talk := &jig.Jig{Desk: d, State: jig.State{Grinding: grinding}, MayAsk: a.mayAsk()}
				loop := &scanLoop{app: a, jig: talk, input: a.answers(), out: out}
				defer a.tabEnds()()
				return loop.run()
			})
			if desk.FailureOf(err) == desk.InUse {
				return fmt.Errorf("nothing that is scanned is recorded: %w", err)
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&grinding, "grind", false, "each scan logs the usual grind")
	cmd.Flags().BoolVar(&selfTest, "self-test", false, "three codes to scan, and what the scanner has to be set to; nothing is recorded")
	cmd.Flags().StringVar(&out.printer, "print", "", "the printer that tags of changed steel go to; steeltally printer list shows them")
	return cmd
}

// scanLoop is one session at the jig. One book is open all along.
type scanLoop struct {
	app   *app
	jig   *jig.Jig
	input *lines
	out   tagOutput
}

// tabEnds lets a Tab end a line, as scanners can be set to, until the function that it
// gives is called.
func (a *app) tabEnds() (undo func()) {
	a.answers().tabEnds = true
	if a.world.TabEnds == nil {
		return func() {}
	}
	return a.world.TabEnds()
}

// run acts on line after line; whatever goes wrong with one, the next is read.
func (l *scanLoop) run() error {
	for over := false; !over && l.next(); {
		reply, err := l.jig.Line(l.input.text)
		l.app.sayReply(reply)
		if err == nil {
			err = l.tags(reply.Removed)
		}
		if err != nil {
			if codeOf(err) == exitFailed || codeOf(err) == exitDamaged {
				return err
			}
			l.app.voice.fail(err)
		}
		over = reply.Over
	}
	if err := l.input.err; err != nil {
		return fmt.Errorf("the scanner's line can't be read: %w", err)
	}
	return l.end()
}

// next shows where the person is and reads a line.
func (l *scanLoop) next() bool {
	if l.jig.State.Asked != nil {
		l.app.sayQuestion(*l.jig.State.Asked)
	} else if l.app.world.Interactive {
		l.app.voice.ask("%s> ", scanMode(l.jig.State))
	}
	more := l.input.next()
	if l.input.tabbed && l.app.world.Interactive {
		l.app.voice.ask("\n") // a Tab leaves the cursor where it is
	}
	return more
}

// scanMode says in a word what a scan does.
func scanMode(s jig.State) string {
	switch {
	case s.Changing:
		return "scan the set that goes on"
	case s.Grinding:
		return "scan = grind"
	}
	return "scan"
}

// tags brings out the tags of steel that came off for good.
func (l *scanLoop) tags(removed []inventory.Number) error {
	printed, err := l.app.tagsAfter(l.jig.Desk, l.out, removed)
	if err != nil {
		return err
	}
	l.app.voice.notices(printed.Notices)
	l.app.sayTags(printed)
	return nil
}

// end says who was not logged; nothing is ever assumed.
func (l *scanLoop) end() error {
	missing, err := l.jig.Desk.NotLogged()
	if err != nil {
		return err
	}
	l.app.voice.say("%s", desk.SayNotLogged(missing))
	return nil
}

// sayReply tells what came of a line.
func (a *app) sayReply(reply jig.Reply) {
	for _, text := range reply.Said {
		a.voice.say("%s", text)
	}
	if reply.Card != nil {
		a.sayCard(*reply.Card)
	}
	for _, done := range reply.Done {
		a.voice.done(done)
	}
	if reply.Rescue != nil {
		a.sayRescue(*reply.Rescue)
	}
	a.voice.notices(reply.Notices)
}

// sayQuestion writes a question with its choices; the answer is typed behind it.
func (a *app) sayQuestion(q jig.Question) {
	for i, choice := range q.Choices {
		a.voice.ask("%d  %s\n", i+1, choice)
	}
	a.voice.ask("%s ", q.Text)
}

// selfTest draws three codes, one after the other, and says what the scanner did with them
// and what it has to be set to.
func (a *app) selfTest() error {
	if a.json {
		return usage("the scanner's test talks to a person: leave --json out")
	}
	codes, err := desk.TestCodes()
	if err != nil {
		return err
	}
	defer a.tabEnds()()
	heard := a.hear(codes)
	report := jig.ReportScanner(codes, heard)
	if report.Verdict == "" {
		a.voice.say("nothing was scanned")
		return nil
	}
	a.voice.say("%s", report.Verdict)
	for _, finding := range report.Findings {
		a.voice.say("  %s", finding.Text)
		if finding.Hint != "" {
			a.voice.say("    %s", finding.Hint)
		}
	}
	return nil
}

// hear reads a line for each code. What more ends the last one is known when the line after
// it comes.
func (a *app) hear(codes []desk.TestCode) []jig.Heard {
	var heard []jig.Heard
	input := a.answers()
	for i := 0; i <= len(codes); i++ {
		if i < len(codes) {
			a.drawCode(codes[i])
			a.voice.ask("scan it (%d of %d; q ends)> ", i+1, len(codes))
		} else {
			a.voice.ask("\nnow press Enter> ")
		}
		more := input.next()
		for n := len(heard) - 1; n >= 0 && input.rests > 0; input.rests-- {
			heard[n].Ends = append(heard[n].Ends, "Enter")
		}
		if !more || input.text == "q" {
			break
		}
		if i < len(codes) && input.text != "" {
			heard = append(heard, jig.Heard{Typed: input.text, Ends: []string{endOf(input.tabbed)}})
		}
	}
	return heard
}

func endOf(tabbed bool) string {
	if tabbed {
		return "Tab"
	}
	return "Enter"
}

func (a *app) drawCode(code desk.TestCode) {
	a.voice.say("%s", code.Title)
	if a.world.Interactive {
		a.voice.say("%s", strings.Join(code.Blocks(), "\n"))
	}
}
