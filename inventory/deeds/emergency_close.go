package deeds

import (
	"fmt"

	"steeltally/inventory"
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
			out.tell("steeltally emergency done says how the next one ended", fmt.Sprintf("nobody said how the emergency of %s ended", crisis.When.Say(inventory.ClubOf(v).Location())))
		}
		out.record(m.Happened, &inventory.EmergencyClosed{Emergency: crisis.Event, Player: d.Player, Note: d.Note})
	}
	if len(out.Drafts) == 0 {
		return out, inventory.Refuse("steeltally work lists what is open", "no emergency of %s is open", player.Name)
	}
	return out, nil
}
