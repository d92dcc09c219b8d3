package cli

import (
	"bufio"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
)

// mayAsk tells whether a person can answer.
func (a *app) mayAsk() bool { return a.world.Interactive && !a.json }

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
	answer, _ := bufio.NewReader(a.world.Stdin).ReadString('\n')
	picked, ok := question.Player(strings.TrimSpace(answer))
	if !ok {
		return text, ambiguous
	}
	return picked.String(), nil
}
