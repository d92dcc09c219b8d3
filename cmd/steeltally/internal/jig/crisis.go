package jig

import (
	"slices"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// emergency says what gets the player back on the ice: of a holder or runner that was
// scanned, or of a player and a side.
func (j *Jig) emergency(side inventory.Side) error {
	alarm := desk.Alarm{Side: side}
	about := j.State.About.Number
	switch kind := about.Kind(); {
	case about == 0:
		return nothingMeant("scan the player, or the holder or runner that broke")
	case kind == inventory.KindHolder || kind == inventory.KindRunner:
		alarm.Who = about.String()
	case side == "":
		return &inventory.Refusal{Reason: "on which side did it break?", Hint: "el is left, er is right; or scan the holder or runner itself"}
	default:
		who, err := j.meant()
		if err != nil {
			return err
		}
		alarm.Who = who
	}
	rescue, done, err := j.Desk.Emergency(alarm)
	if err != nil {
		return err
	}
	j.reply.Rescue = &rescue
	j.reply.Notices = append(done.Notices, deeds.Notice{
		Text: "the clock runs", Hint: "ed when he is back, or steeltally emergency done " + rescue.Typed(),
	})
	j.State.Crisis = &desk.Clock{Player: rescue.Player, Pair: rescue.Pair, Side: rescue.Side, Since: rescue.Since}
	j.State.Keep(done)
	return nil
}

// back asks what was done in the emergency of who was scanned, or of the only one that
// is open. The time it took is what the clock shows.
func (j *Jig) back() error {
	inquiry := Inquiry{Deed: deeds.EndEmergency{Player: j.State.About.Player}}
	if crisis := j.State.Crisis; crisis != nil {
		inquiry.Deed.Player = crisis.Player
		minutes := float64(int(j.Desk.Instant().Sub(crisis.Since).Seconds())) / 60
		inquiry.Deed.Minutes = &minutes
	}
	if !j.MayAsk {
		return &inventory.Refusal{Reason: "nobody is here to be asked what was done", Hint: "steeltally emergency done says it"}
	}
	j.inquire(inquiry)
	return nil
}

// FollowClock takes over the clock that runs by the record, whoever began it, and drops
// one that has ended.
func (s *State) FollowClock(d *desk.Desk) error {
	clocks, err := d.Clocks()
	if err != nil {
		return err
	}
	if s.Crisis != nil && slices.ContainsFunc(clocks, s.Crisis.Same) {
		return nil
	}
	s.Crisis = nil
	if len(clocks) > 0 {
		s.Crisis = &clocks[0]
	}
	return nil
}

func (j *Jig) inquire(inquiry Inquiry) {
	question, _ := inquiry.Ask()
	question.Inquiry = &inquiry
	j.ask(question)
}

// told takes an answer about an emergency, and records all of them after the last.
func (j *Jig) told(inquiry Inquiry, text string) error {
	inquiry.Answer(text)
	if inquiry.Deed.Did == "" {
		j.say("left open")
		return nil
	}
	if _, more := inquiry.Ask(); more {
		j.inquire(inquiry)
		return nil
	}
	who := ""
	if inquiry.Deed.Player != 0 {
		who = inquiry.Deed.Player.String()
	}
	done, err := j.Desk.EndEmergency(who, inquiry.Deed)
	if err != nil {
		return err
	}
	j.State.Crisis = nil
	j.reply.Removed = append(j.reply.Removed, done.Broken()...)
	return j.done(done, nil)
}
