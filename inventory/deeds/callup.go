package deeds

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"steeltally/geometry"
	"steeltally/inventory"
)

// CallUp is a player who joins at short notice, with what is known of his skates.
type CallUp struct {
	Name     string
	Sweater  int
	Position string
	Family   string
	Sizes    inventory.Both[int]
	Hollow   *inventory.Cut
	Profile  inventory.Profile
	Pitch    *geometry.Millimetre
	Unknown  []string // said to be unknown; what was not said at all is unknown too
}

// Decide adds the player, or brings one back who was here before. What nobody knows
// stays unknown, and is asked for when his skates arrive.
func (d CallUp) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := d.check(); err != nil {
		return out, err
	}
	player, err := d.player(v, m, &out)
	if err != nil {
		return out, err
	}
	body := &inventory.CalledUp{Player: player, Family: d.Family, Sizes: d.Sizes, Hollow: d.Hollow, Profile: d.Profile, Pitch: d.Pitch, Ask: d.ask()}
	if d.Hollow != nil || d.Profile != nil || d.Pitch != nil {
		out.record(m.Happened, &inventory.SpecsNoted{Player: player, Hollow: d.Hollow, Profile: d.Profile, Pitch: d.Pitch})
	}
	out.record(m.Happened, body)
	if len(body.Ask) > 0 {
		out.tell("not known yet: "+strings.Join(body.Ask, ", "), "ask when the skates arrive: "+strings.Join(body.Ask, ", "))
	}
	return out, nil
}

func (d CallUp) check() error {
	for _, word := range d.Unknown {
		if err := oneOf("unknown", word, inventory.Unknowns()); err != nil {
			return inventory.RefuseValue(err.Error(), "")
		}
	}
	for side, size := range d.Sizes.Each {
		if *size < leastSize || *size > mostSize {
			return inventory.RefuseValue(fmt.Sprintf("size %d on the %s: %d to %d are possible", *size, side, leastSize, mostSize), "the size is the length in mm that the maker marks on the holder")
		}
	}
	if d.Family != "" {
		if err := checkName("the holder family", d.Family); err != nil {
			return err
		}
	}
	if d.Pitch != nil {
		return checkPitch(*d.Pitch)
	}
	return nil
}

// ask lists what is unknown: what was said to be, and what was not said.
func (d CallUp) ask() []string {
	known := map[string]bool{
		"family": d.Family != "", "size": d.Sizes.Left != nil && d.Sizes.Right != nil,
		"hollow": d.Hollow != nil, "profile": d.Profile != nil, "pitch": d.Pitch != nil, "steel": true,
	}
	var ask []string
	for _, word := range inventory.Unknowns() {
		if !known[word] || slices.Contains(d.Unknown, word) {
			ask = append(ask, word)
		}
	}
	return ask
}

// player adds the player, or brings back the one of that name.
func (d CallUp) player(v inventory.View, m Moment, out *Outcome) (inventory.Number, error) {
	var deed Deed = AddPlayer{Name: d.Name, Position: cmp.Or(d.Position, "forward"), Sweater: d.Sweater}
	for _, member := range inventory.RosterOf(v).Members {
		if !inventory.SameName(member.Name, d.Name) || member.Name == "" {
			continue
		}
		here := false
		change := ChangePlayer{Player: member.Player, Sweater: &d.Sweater, Gone: &here}
		if d.Position != "" {
			change.Position = &d.Position
		}
		if d.Sweater == 0 {
			change.Sweater = nil
		}
		deed = change
	}
	noted, err := deed.Decide(v, m)
	if err != nil {
		return 0, err
	}
	out.add(noted)
	return noted.Drafts[0].Body.(*inventory.PlayerNoted).Player, nil
}
