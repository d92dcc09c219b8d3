package deeds

import (
	"fmt"
	"strings"
	"unicode"

	"steeltally/geometry"
	"steeltally/inventory"
)

const mostNameRunes = 80

// checkName refuses names that no tag or table can show.
func checkName(what, name string) error {
	const hint = "write it as it shall stand on a tag"
	runes := []rune(strings.TrimSpace(name))
	switch {
	case len(runes) == 0:
		return inventory.RefuseValue(fmt.Sprintf("%s is empty", what), hint)
	case len(runes) > mostNameRunes:
		return inventory.RefuseValue(fmt.Sprintf("%s has %d letters; %d are possible", what, len(runes), mostNameRunes), hint)
	}
	if unseen, found := inventory.Unseen(name); found {
		return inventory.RefuseValue(fmt.Sprintf("%s %q has a letter that can't be printed, %s", what, inventory.Clip(name), inventory.Visible(unseen)), hint)
	}
	return nil
}

// AddPlayer adds a player to the club.
type AddPlayer struct {
	Name     string
	Position string
	Sweater  int // 0: none yet
}

// Decide gives the player a number. A sweater that somebody wears already is allowed
// (camp) and said.
func (d AddPlayer) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkPerson(d.Name, d.Position, d.Sweater); err != nil {
		return out, err
	}
	numbers, err := nextNumbers(v, inventory.KindPlayer, 1, &out)
	if err != nil {
		return out, err
	}
	if same := inventory.RosterOf(v).Wearing(d.Sweater, m.at()); d.Sweater != 0 && len(same) > 0 {
		out.tell("also worn by "+same[0].Name, "where the sweater alone is said, the program asks for the player's number")
	}
	d.tellNamesake(v, m, &out)
	out.record(m.Happened, &inventory.PlayerNoted{Player: numbers[0], Name: strings.TrimSpace(d.Name), Position: d.Position, Sweater: d.Sweater})
	return out, nil
}

// tellNamesake says that somebody of that name is there: one man entered twice has two
// numbers, and each has half of his steel.
func (d AddPlayer) tellNamesake(v inventory.View, m Moment, out *Outcome) {
	for _, member := range inventory.RosterOf(v).Members {
		if strings.EqualFold(member.Name, strings.TrimSpace(d.Name)) && !member.GoneAt(m.at()) {
			out.tell("a player of that name is there already: "+member.Player.Short(), "if it is one man take this back: steeltally undo; if not, say each by his number")
			return
		}
	}
}

func checkPerson(name, position string, sweater int) error {
	if err := checkName("the player's name", name); err != nil {
		return err
	}
	if !strings.ContainsFunc(name, unicode.IsLetter) {
		return inventory.RefuseValue(fmt.Sprintf("the player's name %q has no letter", inventory.Clip(name)), "a number alone is taken for a sweater or a tag")
	}
	if sweater < 0 || sweater > inventory.MostSweater {
		return inventory.RefuseValue(fmt.Sprintf("sweater %d: sweaters go from 1 to %d", sweater, inventory.MostSweater), "leave it out for a player without a sweater")
	}
	if err := oneOf("position", position, inventory.Positions()); err != nil {
		return inventory.RefuseValue(err.Error(), "goalkeepers' steel is another steel, so the position matters")
	}
	return nil
}

// ChangePlayer changes a player's name, position or sweater from a moment on; what is
// nil stays.
type ChangePlayer struct {
	Player   inventory.Number
	Name     *string
	Position *string
	Sweater  *int
	Gone     *bool
}

// Decide records the player as he is from now on.
func (d ChangePlayer) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	body := &inventory.PlayerNoted{
		Player: d.Player, Name: strings.TrimSpace(or(d.Name, player.Name)), Position: or(d.Position, player.Position),
		Sweater: or(d.Sweater, player.Sweater(m.at())), Gone: or(d.Gone, player.Gone),
	}
	if err := checkPerson(body.Name, body.Position, body.Sweater); err != nil {
		return out, err
	}
	out.record(m.Happened, body)
	return out, nil
}

func or[T any](value *T, otherwise T) T {
	if value != nil {
		return *value
	}
	return otherwise
}

// NoteSpecs says how a player's steel shall be from a moment on.
type NoteSpecs struct {
	Player inventory.Number
	inventory.Specs
}

// Limits of what a spec can be; outside of them it is a slip. Common practice, no source.
const (
	mostPasses                     = 40
	mostPitch  geometry.Millimetre = 10
)

// Decide records the specs that were given.
func (d NoteSpecs) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if _, err := inventory.PlayerOf(v, d.Player); err != nil {
		return out, err
	}
	if err := checkSpecs(d.Specs); err != nil {
		return out, err
	}
	s := d.Specs
	out.record(m.Happened, &inventory.SpecsNoted{Player: d.Player, Hollow: s.Hollow, Profile: s.Profile, Pitch: s.Pitch, Passes: s.Passes, ChangeHeight: s.ChangeHeight})
	return out, nil
}

func checkSpecs(s inventory.Specs) error {
	if s.Hollow == nil && s.Profile == nil && s.Pitch == nil && s.Passes == nil && s.ChangeHeight == nil {
		return inventory.RefuseValue("no spec was given", "say at least one, such as --hollow 1/2in")
	}
	if err := checkShape(s); err != nil {
		return err
	}
	if s.Passes != nil {
		if err := checkPasses(*s.Passes); err != nil {
			return err
		}
	}
	if s.Pitch != nil && !(*s.Pitch <= mostPitch && *s.Pitch >= -mostPitch) {
		return inventory.RefuseValue(fmt.Sprintf("a pitch of %s is no holder's", s.Pitch), "pitch is heel minus toe in mm: 0 is neutral, above leans forward")
	}
	if s.ChangeHeight != nil {
		return inventory.CheckHeight("change height", *s.ChangeHeight)
	}
	return nil
}

// checkShape refuses a hollow or profile that is none; what was typed was read by
// ParseCut and ParseProfile and is one.
func checkShape(s inventory.Specs) error {
	if err := checkCut(s.Hollow); err != nil {
		return err
	}
	for _, radius := range s.Profile {
		if !(radius >= inventory.LeastProfile && radius <= inventory.MostProfile) {
			return inventory.RefuseValue(fmt.Sprintf("a profile of %s is no runner's", radius), "usual are 9ft to 13ft")
		}
	}
	return nil
}

func checkPasses(passes int) error {
	if passes < 1 || passes > mostPasses {
		return inventory.RefuseValue(fmt.Sprintf("%d passes: 1 to %d are possible", passes, mostPasses), "unknown passes are written --unknown, at the jig x; honing --work hone")
	}
	return nil
}
