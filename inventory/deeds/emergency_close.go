package deeds

import (
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// CloseEmergency says that what was mended for the moment is mended for good.
type CloseEmergency struct {
	Player    inventory.Number
	Emergency inventory.Key // zero: all of his that are open
	Note      string
}

// Decide closes what is open. What nobody may skate on stays so.
func (d CloseEmergency) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	for _, crisis := range player.OpenCrises(m.at()) {
		if d.Emergency != (inventory.Key{}) && d.Emergency != crisis.Event {
			continue
		}
		if crisis.Value.Done == nil {
			out.tell(fmt.Sprintf("nobody said how the emergency of %s ended", crisis.When.Say(inventory.ClubOf(v).Location())), "steeltally emergency done says how the next one ended")
		}
		out.record(m.Happened, &inventory.EmergencyClosed{Emergency: crisis.Event, Player: d.Player, Note: d.Note})
	}
	if first, err := inventory.PairInRole(v, player, inventory.RoleFirst, m.at()); err == nil {
		if n := standing.UnsafePart(v, first.Number, m.at()); n != 0 {
			out.tell(n.Short()+" on his first pair: DO NOT SKATE", "take it off before he skates")
		}
		for _, side := range inventory.Sides() {
			if first.HolderAt(side, m.at()) == 0 && len(first.Boot(side).Holders.Until(m.at())) > 0 || first.SeatAt(side, m.at()).Runner == 0 {
				out.tell(fmt.Sprintf("the %s boot of his first pair lacks its holder or its steel: not to be skated on", side), "steeltally work says what it lacks")
			}
		}
	}
	if len(out.Drafts) == 0 {
		return out, inventory.Refuse("no emergency of "+player.Name+" is open", "steeltally work lists what is open")
	}
	return out, nil
}
