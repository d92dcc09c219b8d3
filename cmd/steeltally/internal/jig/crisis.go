package jig

import (
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
	j.reply.Notices = append(done.Notices, inventory.Notice{
		Text: "the clock runs", Hint: "ed when he is back; afterwards: steeltally emergency done " + rescue.Typed(),
	})
	j.State.Keep(done)
	clocks, err := j.Desk.Clocks()
	for _, clock := range clocks {
		if clock.Player == rescue.Player && clock.Pair == rescue.Pair && clock.Side == rescue.Side {
			j.State.Crisis = &clock
			break
		}
	}
	return err
}

// back asks what was done in the emergency whose clock is shown, or of the only one that
// is open. The time it took is what the clock shows.
func (j *Jig) back() error {
	if err := j.State.FollowClock(j.Desk); err != nil {
		return err
	}
	inquiry := Inquiry{Deed: deeds.EndEmergency{Player: j.State.About.Player}}
	if crisis := j.State.Crisis; crisis != nil {
		rescue, err := j.Desk.Rescue(crisis.Player, crisis.Pair, crisis.Side, crisis.Since)
		if err != nil {
			return err
		}
		inquiry = Inquire(rescue, inquiry.Deed)
		inquiry.Deed.Player, inquiry.Deed.Emergency, inquiry.Who = crisis.Player, crisis.Event, crisis.Who+" "+string(crisis.Side)
		minutes := float64(int(j.Desk.Instant().Sub(crisis.Since).Seconds())) / 60
		inquiry.Deed.Minutes = &minutes
	}
	if !j.MayAsk {
		return &inventory.Refusal{Reason: "nobody is here to be asked what was done", Hint: "steeltally emergency done says it"}
	}
	j.inquire(inquiry)
	return nil
}

// firstAgain says that the player who was scanned skates on his first pair again.
func (j *Jig) firstAgain() error {
	player := j.State.About.Player
	if player == 0 {
		return nothingMeant("scan the player first")
	}
	return j.done(j.Desk.CloseEmergency(player.String(), ""))
}

// FollowClock shows the clock that runs by the record, whoever began it: that of the
// player who was scanned, else the one that was shown, else the latest.
func (s *State) FollowClock(d *desk.Desk) error {
	clocks, err := d.Clocks()
	if err != nil {
		return err
	}
	shown, best := s.Crisis, -1
	s.Crisis = nil
	for i, clock := range clocks {
		rank := 0
		if clock.Player == s.About.Player {
			rank += 2
		}
		if shown != nil && clock.Same(*shown) {
			rank++
		}
		if rank > best {
			best, s.Crisis = rank, &clocks[i]
		}
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
	if understood := inquiry.Answer(text); !understood && inquiry.Step > 0 {
		j.say(text + " is no answer to that; Enter leaves it open")
		j.inquire(inquiry)
		return nil
	}
	if inquiry.Deed.Did == "" {
		j.say("left open")
		return nil
	}
	if _, more := inquiry.Ask(); more {
		j.inquire(inquiry)
		return nil
	}
	return j.end(inquiry)
}
