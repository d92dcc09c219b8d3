package cli

import (
	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// emergency says what gets the player back on the ice: of a holder or runner that was
// scanned, or of a player and a side.
func (l *scanLoop) emergency(side inventory.Side) error {
	alarm := desk.Alarm{Side: side}
	switch kind := l.card.Number.Kind(); {
	case l.card.Number == 0:
		return &inventory.Refusal{Reason: "nothing to act on", Hint: "scan the player, or the holder or runner that broke"}
	case kind == inventory.KindHolder || kind == inventory.KindRunner:
		alarm.Who = l.card.Number.String()
	case side == "":
		return &inventory.Refusal{Reason: "on which side did it break?", Hint: "el is left, er is right; or scan the holder or runner itself"}
	default:
		who, err := l.meant()
		if err != nil {
			return err
		}
		alarm.Who = who
	}
	rescue, _, err := l.desk.Emergency(alarm)
	if err != nil {
		return err
	}
	l.app.sayRescue(rescue)
	l.app.voice.notice(inventory.Notice{Text: "the clock runs", Hint: "ed when he is back, or steeltally emergency done " + rescue.Typed()})
	return nil
}

// emergencyDone asks what was done in the emergency of who was scanned, or of the only
// one that is open.
func (l *scanLoop) emergencyDone() error {
	who := ""
	if l.card.Player != 0 {
		who = l.card.Player.String()
	}
	deed := inventory.EndEmergency{}
	if !l.app.askWhatWasDone(&deed, l.answer) {
		l.app.voice.say("left open")
		return nil
	}
	return l.done(l.desk.EndEmergency(who, deed))
}
