package cli

import (
	"bufio"
	"fmt"
	"strconv"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
)

// mayAsk tells whether a person can answer.
func (a *app) mayAsk() bool { return a.world.Interactive && !a.json }

// player makes a player's name or sweater unambiguous, where a person can answer.
func (a *app) player(d *desk.Desk, text string) (string, error) {
	return a.playerFrom(d, text, func() string {
		answer, _ := bufio.NewReader(a.world.Stdin).ReadString('\n')
		return strings.TrimSpace(answer)
	})
}

// playerFrom is player with the place that answers come from.
func (a *app) playerFrom(d *desk.Desk, text string, answer func() string) (string, error) {
	if text == "" || !a.mayAsk() {
		return text, nil
	}
	ambiguous, err := d.Pick(text)
	if err != nil || ambiguous == nil {
		return text, err
	}
	for i, m := range ambiguous.Members {
		fmt.Fprintf(a.world.Stderr, "%d  %s\n", i+1, m.Name)
	}
	fmt.Fprint(a.world.Stderr, "which one? ")
	choice, err := strconv.Atoi(answer())
	if err != nil || choice < 1 || choice > len(ambiguous.Members) {
		return text, ambiguous
	}
	return ambiguous.Members[choice-1].Player.String(), nil
}
