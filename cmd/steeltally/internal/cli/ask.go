package cli

import (
	"errors"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// mayAsk tells whether a person can answer.
func (a *app) mayAsk() bool { return a.world.Interactive && !a.json }

// lifted asks a person about what an action would lift DO NOT SKATE from, and gives what he
// named; nothing where he did not, or the error is another one.
func (a *app) lifted(err error) []inventory.Number {
	lift := new(deeds.LiftError)
	if !errors.As(err, &lift) || !a.mayAsk() {
		return nil
	}
	l, yes := jig.Lifting{Pieces: lift.Pieces}, true
	for yes && !l.Named() {
		a.sayQuestion(jig.LiftQuestion(l))
		l, yes = l.Answer(a.answers().answer())
	}
	if !yes {
		return nil
	}
	return l.Sure
}

// soundFlag names pieces from which DO NOT SKATE is lifted.
func soundFlag(cmd *cobra.Command, sure *[]inventory.Number) {
	cmd.Flags().Func("sound", "lift DO NOT SKATE from this piece: its number once more", func(text string) error {
		n, err := inventory.ScannedNumber(text)
		*sure = append(*sure, n)
		return err
	})
}

// player makes a player's name or sweater unambiguous, where a person can answer.
func (a *app) player(d *desk.Desk, text string) (string, error) {
	if text == "" || !a.mayAsk() {
		return text, nil
	}
	ambiguous, err := d.Pick(text)
	if err != nil || ambiguous == nil {
		return text, err
	}
	question := jig.WhichPlayer(ambiguous)
	a.sayQuestion(question)
	picked, ok := question.Player(a.answers().answer())
	if !ok {
		return text, ambiguous
	}
	return picked.String(), nil
}

// playerToAct makes clear for whom something is recorded: who was named only, and by no
// number, is asked about where a person can answer. Elsewhere the desk refuses him.
func (a *app) playerToAct(d *desk.Desk, text string) (string, error) {
	who, err := a.player(d, text)
	if err != nil || who == "" || !a.mayAsk() || !inventory.ByName(who) {
		return who, err
	}
	card, err := d.Card(who)
	if err != nil {
		return who, err
	}
	a.voice.ask("%s? (y/n) ", card.Title)
	if !slices.Contains([]string{"y", "yes"}, strings.ToLower(a.answers().answer())) {
		return who, &inventory.Refusal{Reason: "nothing was recorded", Hint: "name the player by sweater or number"}
	}
	return card.Number.String(), nil
}

// ask writes a question; the answer is typed behind it.
func (v *voice) ask(format string, args ...any) {
	io.WriteString(v.err, v.warned(within(format, args)))
}

// answers reads the lines that a person types.
func (a *app) answers() *lines {
	if a.input == nil {
		a.input = newLines(a.world.Stdin, a.world.Typed)
	}
	return a.input
}
