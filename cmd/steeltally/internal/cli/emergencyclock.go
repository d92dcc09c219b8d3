package cli

import (
	"bufio"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// untilBack lets the clock run on the screen until the player is back, then asks what
// was done.
func (a *app) untilBack(rescue desk.Rescue) error {
	back := make(chan bool, 1)
	input := bufio.NewScanner(a.world.Stdin)
	go func() { back <- input.Scan() }()
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		took := a.world.Now().Sub(rescue.Since)
		fmt.Fprintf(a.world.Stderr, "\r%s  Enter when he is back  ", sayClock(int(took.Seconds())))
		select {
		case pressed := <-back:
			fmt.Fprintln(a.world.Stderr)
			if !pressed {
				return nil
			}
			minutes := float64(int(a.world.Now().Sub(rescue.Since).Seconds())) / 60
			return a.askAll(rescue.Player.String(), inventory.EndEmergency{Minutes: &minutes}, input)
		case <-tick.C:
		}
	}
}

// askDone asks what was done after an emergency.
func (a *app) askDone(who string, deed inventory.EndEmergency) error {
	return a.askAll(who, deed, bufio.NewScanner(a.world.Stdin))
}

// askAll asks one question after the other; Enter leaves a thing open.
func (a *app) askAll(who string, deed inventory.EndEmergency, input *bufio.Scanner) error {
	deed.Did = a.choose(input, "what was done?", inventory.Remedies())
	if deed.Did == "" {
		a.voice.notice(inventory.Notice{Text: "left open", Hint: "steeltally emergency done " + who + " when there is time"})
		return nil
	}
	deed.Broke = a.choose(input, "what had broken?", []string{inventory.BrokeHolder, inventory.BrokeRunner, inventory.RemedyNothing})
	if deed.Broke == inventory.BrokeHolder || deed.Broke == inventory.BrokeRunner {
		deed.Mode = a.choose(input, "how?", inventory.Modes())
		if deed.Mode == "" {
			deed.Broke = ""
		} else {
			deed.Zone = a.choose(input, "where?", inventory.Zones())
		}
	}
	a.voice.ask("shifts missed? ")
	if input.Scan() {
		if shifts, err := strconv.Atoi(strings.TrimSpace(input.Text())); err == nil {
			deed.ShiftsMissed = &shifts
		}
	}
	return a.endEmergency(who, deed)
}

// choose lets a person pick a word by its number or its beginning; Enter picks none.
func (a *app) choose(input *bufio.Scanner, question string, words []string) string {
	for i, word := range words {
		a.voice.ask("%d %s  ", i+1, word)
	}
	a.voice.ask("\n%s ", question)
	if !input.Scan() {
		return ""
	}
	answer := strings.ToLower(strings.TrimSpace(input.Text()))
	if number, err := strconv.Atoi(answer); err == nil && number >= 1 && number <= len(words) {
		return words[number-1]
	}
	at := slices.IndexFunc(words, func(word string) bool { return answer != "" && strings.HasPrefix(word, answer) })
	if at < 0 {
		return ""
	}
	return words[at]
}
