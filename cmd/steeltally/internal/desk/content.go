package desk

import (
	"cmp"
	"fmt"
	"strconv"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
	"steeltally/templates"
)

// content is what a tag of a piece, a pair or a set shows at an instant.
func (d *Desk) content(v inventory.View, n inventory.Number, at time.Time) (templates.Content, error) {
	c := templates.Content{Number: n.String(), Short: n.Short(), Kind: n.Kind().String()}
	if inventory.IsBlank(v, n) {
		return c, nil
	}
	var err error
	switch n.Kind() {
	case inventory.KindRunner:
		err = d.runnerContent(v, n, at, &c)
	case inventory.KindHolder:
		err = d.holderContent(v, n, at, &c)
	case inventory.KindPair:
		err = d.pairContent(v, n, at, &c)
	case inventory.KindSet:
		err = d.setContent(v, n, at, &c)
	case inventory.KindPlayer:
		err = d.ownerContent(v, n, at, &c)
	case inventory.KindTrunk, inventory.KindBin:
		err = d.containerContent(v, n, at, &c)
	case inventory.KindAction:
		err = actionContent(n, &c)
	default:
		err = &inventory.Refusal{Reason: fmt.Sprintf("there is no tag for a %s yet", n.Kind())}
	}
	return c, err
}

// ownerContent adds whose the piece is and how his steel shall be.
func (d *Desk) ownerContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	player, err := inventory.PlayerOf(v, n)
	if err != nil {
		return err
	}
	c.Player = player.Name
	if sweater := player.Sweater(at); sweater != 0 {
		c.Sweater = strconv.Itoa(sweater)
	}
	specs := player.SpecsAt(at)
	if specs.Hollow != nil {
		c.Hollow = specs.Hollow.Short()
	}
	c.Profile = specs.Profile.String()
	return nil
}

func (d *Desk) pairContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	pair, err := inventory.FindPair(v, n)
	if err != nil {
		return err
	}
	c.Role = string(pair.Role(at))
	c.Unsafe = !standing.Skateable(v, at, n)
	return d.ownerContent(v, pair.Player, at, c)
}

func (d *Desk) setContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	set, err := inventory.FindSet(v, n)
	if err != nil {
		return err
	}
	c.Letter = set.Letter
	c.Unsafe = !standing.Skateable(v, at, n)
	if left, err := inventory.FindRunner(v, set.Left); err == nil {
		c.Model, c.Size = left.Model, saySize(left.Size)
	}
	return d.ownerContent(v, set.Player, at, c)
}

func (d *Desk) holderContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	holder, err := inventory.FindHolder(v, n)
	if err != nil {
		return err
	}
	c.Side, c.Model, c.Size = string(holder.SideOf()), holder.Model, saySize(holder.Size)
	c.Unsafe = !standing.Skateable(v, at, n)
	if tag := holder.KnownTag(); tag != nil && len(holder.Boots) == 0 {
		d.knownContent(tag, c)
		return nil
	}
	tally := inventory.Tally{Piece: n, Side: holder.SideOf(), Generation: holder.Generation(at)}
	d.bootContent(v, holder, at, c, &tally)
	if damages := holder.OpenDamages(at); len(damages) > 0 {
		c.Reason = string(damages[0].Mode)
		tally.Reason = inventory.Why(cmp.Or(inventory.ModeThatForbids(damages), damages[0].Mode)).Tally()
	}
	c.Tally = tally.String()
	return nil
}

// bootContent adds whose boot a holder is or was on, and when it came off.
func (d *Desk) bootContent(v inventory.View, holder *inventory.Holder, at time.Time, c *templates.Content, tally *inventory.Tally) {
	boots := holder.Boots.Until(at)
	for _, boot := range boots {
		if boot.Value.Pair == 0 {
			c.DateOff, tally.Out = sayTagDate(boot.When, d.zone), inventory.TallyDate(boot.When, d.zone)
			continue
		}
		c.DateOff, tally.Out = "", ""
		if tally.In == "" {
			tally.In = inventory.TallyDate(boot.When, d.zone)
		}
		if pair, err := inventory.FindPair(v, boot.Value.Pair); err == nil {
			tally.Player = pair.Player
		}
	}
	if player, err := inventory.PlayerOf(v, tally.Player); err == nil {
		tally.Sweater = player.Sweater(at)
	}
	if tally.Sweater != 0 {
		c.Sweater = strconv.Itoa(tally.Sweater)
	}
}

// runnerContent is the tag of a runner: of its last time in use, where it had one.
func (d *Desk) runnerContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	runner, err := inventory.FindRunner(v, n)
	if err != nil {
		return err
	}
	wear := runner.WearAt(at)
	c.Side, c.Model, c.Size = string(runner.SideAt(at)), runner.Model, saySize(runner.Size)
	c.Unsafe = !standing.Skateable(v, at, n)
	if wear.HeightNew != nil {
		c.HeightNew = wear.HeightNew.String()
	}
	if wear.HeightLast != nil {
		c.HeightFinal = wear.HeightLast.String()
	}
	stints := runner.Stints(at)
	tally := inventory.Tally{
		Piece: n, Generation: runner.Generation(at), Side: runner.SideAt(at), New: wear.HeightNew, Final: wear.HeightLast,
		Grinds: wear.Grinds, Passes: wear.Passes, Unknown: wear.UnknownWorks > 0,
	}
	if len(stints) > 0 {
		d.stintContent(v, stints, c, &tally)
	}
	d.hollowContent(runner, at, c, &tally)
	if forbids := inventory.ReasonThatForbids(runner.OpenDamages(at)); forbids != "" {
		tally.Reason = inventory.Why(forbids).Tally()
	}
	if found := runner.Found; found != nil && len(stints) == 1 {
		markedContent(found, c, &tally)
	}
	if tag := runner.KnownTag(); tag != nil && len(stints) == 1 {
		d.knownContent(tag, c)
		return nil
	}
	c.Tally = tally.String()
	return nil
}

// stintContent adds whose runner it was last, and when and why it came off.
func (d *Desk) stintContent(v inventory.View, stints []inventory.Stint, c *templates.Content, tally *inventory.Tally) {
	last := stints[len(stints)-1]
	tally.In, tally.Player = inventory.TallyDate(stints[0].In, d.zone), last.Player
	if player, err := inventory.PlayerOf(v, last.Player); err == nil {
		when := last.In.Start
		if !last.Open {
			when = last.Out.Start
		}
		tally.Sweater = player.Sweater(when)
	}
	if tally.Sweater != 0 {
		c.Sweater = strconv.Itoa(tally.Sweater)
	}
	if last.Order != 0 {
		c.SetOrder = fmt.Sprintf("set %d", last.Order)
	}
	if set, err := inventory.FindSet(v, last.Set); err == nil {
		c.Letter = set.Letter
	}
	if last.Open {
		return
	}
	c.DateOff, c.Reason, c.LastGame = sayTagDate(last.Out, d.zone), string(last.Reason), last.LastGame
	tally.Out, tally.Reason = inventory.TallyDate(last.Out, d.zone), inventory.Why(last.Reason).Tally()
}

// hollowContent adds the hollow that was ground last.
func (d *Desk) hollowContent(runner *inventory.Runner, at time.Time, c *templates.Content, tally *inventory.Tally) {
	for _, work := range runner.Works.Until(at) {
		if work.Value.Hollow != nil {
			tally.Hollow = *work.Value.Hollow
			c.Hollow = work.Value.Hollow.Short()
		}
	}
}

// knownContent is the tag of a piece of which only its earlier tag is known: the same
// once more, fields of later versions included.
func (d *Desk) knownContent(tag *inventory.TagFacts, c *templates.Content) {
	c.DateOff, c.Reason = sayTagDate(tag.Out, d.zone), string(tag.Reason)
	c.Sweater = unlessZero(tag.Sweater)
	if tag.New != nil {
		c.HeightNew = tag.New.String()
	}
	if tag.Final != nil {
		c.HeightFinal = tag.Final.String()
	}
	if tag.Hollow != nil {
		c.Hollow = tag.Hollow.String()
	}
	c.Tally = tag.Tally(d.zone).String()
}

// markedContent is the tag of an old piece: what the marker pen wrote, as it stands.
func markedContent(found *inventory.OldInscription, c *templates.Content, tally *inventory.Tally) {
	c.Reason = "marked " + found.Text
	tally.Reason, tally.Sweater = "", found.Sweater
	c.Sweater = unlessZero(found.Sweater)
}

// unlessZero writes a number that is there.
func unlessZero(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// saySize writes a length as the maker marks it, or nothing where it is not known.
func saySize(size int) string { return unlessZero(size) }

// actionContent is one symbol of the action card.
func actionContent(n inventory.Number, c *templates.Content) error {
	for _, action := range inventory.Actions() {
		if action.Number == n {
			c.Word, c.Hint = action.Word, action.Hint
			return nil
		}
	}
	return &inventory.Refusal{Reason: fmt.Sprintf("there is no action %s", n.Short()), Hint: "steeltally tag --actions prints the card with all of them"}
}

// containerContent is the tag of a trunk or a bin: its name and what lies in it.
func (d *Desk) containerContent(v inventory.View, n inventory.Number, at time.Time, c *templates.Content) error {
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return err
	}
	c.Name = container.Name
	c.Lines = contentsOf(v, container.Name, at)
	return nil
}

// contentsOf says what lies at a place, first how much of it nobody may skate on: "1 of
// them: DO NOT SKATE", "2 pairs", "1 runner".
func contentsOf(v inventory.View, name string, at time.Time) []string {
	var lines []string
	unsafe := 0
	counts := map[inventory.Kind]int{}
	for _, n := range standing.Inside(v, name, at) {
		counts[n.Kind()]++
		if !standing.Skateable(v, at, n) {
			unsafe++
		}
	}
	if unsafe > 0 {
		lines = append(lines, fmt.Sprintf("%d of them: DO NOT SKATE", unsafe))
	}
	for _, kind := range []inventory.Kind{inventory.KindPair, inventory.KindSet, inventory.KindRunner, inventory.KindHolder} {
		if counts[kind] > 0 {
			lines = append(lines, SayCount(counts[kind], kind.String()))
		}
	}
	return lines
}

// NoteContainer enters a trunk or a bin and gives its number.
func (d *Desk) NoteContainer(deed deeds.NoteContainer) (inventory.Number, Done, error) {
	done, err := d.do(deed)
	return made(done, func(b *inventory.ContainerNoted) inventory.Number { return b.Container }), done, err
}

// named puts the name of a trunk or bin in the place of its scanned number.
func named(v inventory.View, place inventory.Place) (inventory.Place, error) {
	n, err := inventory.ParseNumber(place.Name)
	if err != nil || n.Kind() != inventory.KindTrunk && n.Kind() != inventory.KindBin {
		return place, nil
	}
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return place, err
	}
	place.Name = container.Name
	return place, nil
}
