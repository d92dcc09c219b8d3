package jig

import (
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// usual is Enter: it ends a row of the caliper's readings, or the wait for the set that
// goes on, and else logs the usual grind.
func (j *Jig) usual() error {
	if j.State.Changing {
		j.State.Changing = false
		j.say("nothing was changed")
		return nil
	}
	if len(j.State.Readings) > 0 {
		return j.noteReadings()
	}
	return j.grind(deeds.Grind{}, "")
}

// grind logs work on what was scanned. The same steel within a minute asks first; line is
// what is done again where the answer is yes.
func (j *Jig) grind(work deeds.Grind, line string) error {
	if crisis := j.State.Crisis; crisis != nil && crisis.Player == j.State.About.Player {
		return &inventory.Refusal{Reason: "the clock runs for him: nothing is ground now", Hint: "ed when he is back"}
	}
	who, err := j.meant()
	if err != nil {
		return err
	}
	work.Again = j.sure
	if !work.More && j.MayAsk && !j.sure {
		twice, err := j.Desk.GroundJustNow(who)
		if err != nil {
			return err
		}
		if twice {
			j.ask(Question{Sort: askAgain, Text: "ground less than a minute ago; once more? (y/n)", Line: line})
			return nil
		}
	}
	return j.done(j.Desk.Grind([]string{who}, nil, "", work))
}

// more logs passes that come on top of the last grind.
func (j *Jig) more(side inventory.Side, text string) error {
	n, err := passes(text)
	if err != nil {
		return err
	}
	work := deeds.Grind{More: true}
	work.Passes.Put(side, n)
	return j.grind(work, "")
}

// both logs a grind of so many passes on both sides.
func (j *Jig) both(line, text string) error {
	n, err := passes(text)
	if err != nil {
		return err
	}
	work := deeds.Grind{}
	work.Passes.Left, work.Passes.Right = n, n
	return j.grind(work, line)
}
