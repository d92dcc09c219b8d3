package cli

import (
	"fmt"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// untilBack lets the clock run on the screen until the player is back, then asks what
// was done. The book is closed meanwhile.
func (a *app) untilBack(rescue desk.Rescue) error {
	input := a.answers()
	pressed := make(chan bool, 1)
	var fault error
	go func() {
		enter := false
		fault = inventory.Guard(func() error { enter = input.next(); return nil })
		pressed <- enter
	}()
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		took := a.world.Now().Sub(rescue.Since)
		a.voice.ask("\r%s  Enter when he is back  ", desk.SayClock(int(took.Seconds())))
		select {
		case <-tick.C:
		case enter := <-pressed:
			a.voice.ask("\n")
			if !enter {
				return fault
			}
			minutes := float64(int(a.world.Now().Sub(rescue.Since).Seconds())) / 60
			return a.askDone(rescue, rescue.Player.String(), deeds.EndEmergency{Minutes: &minutes}, nil, input.answer)
		}
	}
}

// answer is the next line; nothing where there is none any more.
func (l *lines) answer() string {
	if !l.next() {
		return ""
	}
	return l.text
}

// askDone asks what was done after an emergency and records it, with what helped.
func (a *app) askDone(rescue desk.Rescue, who string, deed deeds.EndEmergency, with []string, answer func() string) error {
	if len(with) > 0 {
		rescue.Options = nil // what helped is said
	}
	inquiry := jig.Inquire(rescue, deed)
	for question, more := inquiry.Ask(); more; question, more = inquiry.Ask() {
		a.sayQuestion(question)
		inquiry.Answer(answer())
	}
	if inquiry.Deed.Did == "" {
		a.voice.notice(inventory.Notice{Text: "left open", Hint: fmt.Sprintf("steeltally emergency done %s when there is time", who)})
		return nil
	}
	return a.endEmergency(who, inquiry.Deed, with)
}
