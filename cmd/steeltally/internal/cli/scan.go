package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) scanVerb() *cobra.Command {
	var grinding bool
	cmd := &cobra.Command{
		Use: "scan", Short: "the loop for a hand scanner that types", GroupID: groupDay,
		Long: `Scan or type a player, pair, set or piece: what matters of it is shown. Then

  Enter      logs the usual grind, both sides
  l2  r2     two more passes left, right
  b6         logs a grind of six passes on both sides
  x          logs a grind of unknown passes
  m 11.1 11.0   notes the heights left and right
  i          looked at, sound
  e          the holder or runner that was scanned broke: what helps, fastest first
  el  er     something broke on that player's left, right side
  ed         he is back: what was done?
  u          takes the last entry back
  g          from now on each scan logs the usual grind; g again ends that
  q          ends the session and says who was not logged today

The scanned action cards do the same. A grind of the same steel within 60 s asks.` + "\n" + cautions,
		Example: "  steeltally scan\n  steeltally scan --grind",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if a.json || a.at != "" {
				return usage("scan talks to a person, about now: leave --json and --at out")
			}
			return a.withDesk(func(d *desk.Desk) error {
				loop := &scanLoop{app: a, desk: d, input: newLines(a.world.Stdin), grinding: grinding}
				return loop.run()
			})
		},
	}
	cmd.Flags().BoolVar(&grinding, "grind", false, "each scan logs the usual grind")
	return cmd
}

// scanLoop is one session at the jig. One book is open all along.
type scanLoop struct {
	app      *app
	desk     *desk.Desk
	input    *lines
	grinding bool
	card     desk.Card // what was scanned last
	text     string    // the line that is acted on
	kept     bool      // text came instead of an answer and is still to be acted on
	entered  stockLike // what was entered last from a blank tag
	over     bool
}

// next reads a line, unless one came instead of an answer.
func (l *scanLoop) next() bool {
	if l.kept {
		l.kept = false
		return true
	}
	read := l.input.next()
	l.text = l.input.text
	return read
}

// run reads line after line; whatever goes wrong with one, the next is read.
func (l *scanLoop) run() error {
	l.prompt()
	for !l.over && l.next() {
		if err := l.line(l.text); err != nil {
			if codeOf(err) == exitFailed || codeOf(err) == exitDamaged {
				return err
			}
			l.app.voice.fail(err)
		}
		if !l.over {
			l.prompt()
		}
	}
	if err := l.input.err; err != nil {
		return fmt.Errorf("the scanner's line can't be read: %w", err)
	}
	return l.end()
}

func (l *scanLoop) prompt() {
	if !l.app.world.Interactive {
		return
	}
	mode := "scan"
	if l.grinding {
		mode = "scan = grind"
	}
	fmt.Fprintf(l.app.world.Stdout, "%s> ", mode)
}

// end says who was not logged; nothing is ever assumed.
func (l *scanLoop) end() error {
	missing, err := l.desk.NotLogged()
	if err != nil {
		return err
	}
	if len(missing) == 0 {
		l.app.voice.say("everybody with steel on was logged today")
		return nil
	}
	var names []string
	for _, p := range missing {
		if p.Sweater != 0 {
			names = append(names, fmt.Sprint(p.Sweater))
		} else {
			names = append(names, p.Name)
		}
	}
	l.app.voice.say("not logged today: %s", list(names))
	return nil
}
