package jig

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// askClock asks about the machine's clock where it is far from what was noted before. What
// was done is recorded by then and flagged, so that nothing is lost where nobody answers.
func (j *Jig) askClock(done desk.Done) {
	if done.Doubt == nil || !j.MayAsk {
		return
	}
	j.ask(clockQuestion(j.Desk, *done.Doubt))
}

func clockQuestion(d *desk.Desk, doubt desk.ClockDoubt) Question {
	return Question{Sort: askClock, Text: d.SayDoubt(doubt) + ". Is that right? (y/n)", Doubt: doubt.Event}
}

// ClockQuestion is what is still asked about the clock of an action that was recorded
// before; nil where its clock was not in doubt or somebody settled it.
func ClockQuestion(d *desk.Desk, before desk.Done) (*Question, error) {
	if before.Doubt == nil {
		return nil, nil
	}
	open, err := d.InDoubt(*before.Doubt)
	if err != nil || !open {
		return nil, err
	}
	q := clockQuestion(d, *before.Doubt)
	return &q, nil
}

// AfterwardsAsked tells whether what is asked about is recorded by then.
func (q Question) AfterwardsAsked() bool { return q.Sort == askClock }

// answerClock settles the doubt where the clock is right, and takes back what was recorded
// under it where it is wrong. What is no answer leaves it open work.
func (j *Jig) answerClock(q Question, text string) (bool, error) {
	switch {
	case IsYes(text):
		done, err := j.Desk.KeepClock(q.Doubt.String())
		if err == nil {
			j.reply.Done = append(j.reply.Done, done)
		}
		return true, err
	case isNo(text):
		err := j.done(j.Desk.TakeBackUnder(q.Doubt))
		j.say("set this machine's clock, then scan it again")
		return true, err
	}
	j.reply.Notices = append(j.reply.Notices, inventory.Notice{Text: "the clock stays in doubt", Hint: "steeltally clock right settles it"})
	return text == "", nil
}
