package cli

import (
	"bufio"
	"strconv"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
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
	for i, m := range ambiguous.Members {
		a.voice.ask("%d  %s\n", i+1, m.Name)
	}
	a.voice.ask("which one? ")
	answer, _ := bufio.NewReader(a.world.Stdin).ReadString('\n')
	choice, err := strconv.Atoi(strings.TrimSpace(answer))
	if err != nil || choice < 1 || choice > len(ambiguous.Members) {
		return text, ambiguous
	}
	return ambiguous.Members[choice-1].Player.String(), nil
}
