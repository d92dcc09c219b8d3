package desk

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// mostCardLines is how many lines a person can take in at the jig.
const mostCardLines = 6

// Card is what matters of something scanned, in at most six lines.
type Card struct {
	Number inventory.Number
	Title  string
	Lines  []string
	Aside  UnsafeAsides
	Target Target // what an action on it would be about; zero for a holder
	Player inventory.Number
}

// Card tells what matters of what was scanned or typed.
func (d *Desk) Card(text string) (Card, error) {
	var card Card
	asides := d.unsafeAsides()
	err := d.askNow(func(v *standing.Now) error {
		var err error
		at := v.At
		card, err = d.card(v, text, at)
		if stale := staleTag(v, text, at); stale != "" {
			card.Lines = append([]string{stale}, card.Lines...)
		}
		card.Aside = asides.about(v, at, card.Number)
		return err
	})
	if len(card.Lines) > mostCardLines-1 {
		card.Lines = card.Lines[:mostCardLines-1]
	}
	return card, err
}

func (d *Desk) card(v *standing.Now, text string, at time.Time) (Card, error) {
	if n, err := inventory.ScannedNumber(text); err == nil {
		switch n.Kind() {
		case inventory.KindRunner:
			return d.runnerCard(v, n, at)
		case inventory.KindHolder:
			return d.holderCard(v, n, at)
		case inventory.KindSet:
			return d.setCard(v, n, at)
		case inventory.KindTrunk, inventory.KindBin:
			return containerCard(v, n, at)
		}
	}
	target, err := lookUp(v, text, at)
	if err != nil {
		return Card{}, err
	}
	return d.playerCard(v, target, at)
}

// playerCard is what the person at the jig needs: set, specs, last grind, heights.
func (d *Desk) playerCard(v *standing.Now, target Target, at time.Time) (Card, error) {
	player, err := inventory.PlayerOf(v, target.Player)
	if err != nil {
		return Card{}, err
	}
	specs := player.SpecsAt(at)
	card := Card{Number: player.Number, Title: heading(player, at), Target: target, Player: player.Number}
	pair, err := pairMeant(v, target, at)
	if err != nil {
		card.Lines = []string{specs.String(), err.Error()}
		return card, nil
	}
	card.Lines = d.warnings(v, player, pair, at)
	if moment := d.sayMoment(v, player, pair); moment != "" {
		card.Lines = append(card.Lines, moment)
	}
	set, err := inventory.FindSet(v, pair.SetAt(at))
	if err != nil {
		card.Lines = append(card.Lines, specs.String(), fmt.Sprintf("no set is on the %s pair", pair.Role(at)))
		return card, nil
	}
	card.Lines = append(card.Lines, fmt.Sprintf("%s pair, set %s · %s", pair.Role(at), set.Letter, specs.String()))
	card.Lines = append(card.Lines, d.lastGrind(v, set, at), d.heights(v, set, specs))
	return card, nil
}

// heading names a player as people call him: "17 Ansgar Lindqvarn".
func heading(player *inventory.Player, at time.Time) string {
	if sweater := player.Sweater(at); sweater != 0 {
		return strings.TrimSpace(fmt.Sprintf("%d %s", sweater, player.Name))
	}
	return cmp.Or(player.Name, player.Number.Short())
}

// warnings are what is wrong with what is on a pair: first what nobody may skate on.
func (d *Desk) warnings(v inventory.View, player *inventory.Player, pair *inventory.Pair, at time.Time) []string {
	var lines, flags []string
	var said [][]inventory.Key // one contradiction is flagged on every piece that it names
	for _, damage := range standing.Open(v, pair.Number, at) {
		lines = append(lines, sayDamage(damage.Piece, damage))
	}
	for _, lack := range standing.Lacking(v, player, pair, at) {
		lines = append(lines, lack.String())
	}
	for _, n := range standing.Parts(v, pair.Number, at) {
		lines = append(lines, d.lifted(v, n, at)...)
		for _, flag := range flagsOf(v.Entity(inventory.RefOf(n))) {
			if !slices.ContainsFunc(said, func(keys []inventory.Key) bool { return slices.Equal(keys, flag.Keys) }) {
				said, flags = append(said, flag.Keys), append(flags, fmt.Sprintf("check %s: %s", n.Short(), flag.What))
			}
		}
	}
	return append(lines, flags...)
}

// liftedShown is how long it is shown that DO NOT SKATE was lifted.
const liftedShown = 7 * 24 * time.Hour

// lifted says who lifted DO NOT SKATE from a piece lately, and when.
func (d *Desk) lifted(v inventory.View, n inventory.Number, at time.Time) []string {
	look, ok := inventory.MarksOf(v, n).LiftedSince(at.Add(-liftedShown), at)
	if !ok {
		return nil
	}
	return []string{fmt.Sprintf("was DO NOT SKATE: %s, found sound %s by %s", n.Short(), look.When.Say(d.zone), cmp.Or(look.Value.By, "somebody"))}
}

func sayDamage(n inventory.Number, damage inventory.Damaged) string {
	if damage.Unsafe {
		return fmt.Sprintf("DO NOT SKATE: %s, %s", n.Short(), damage.Where())
	}
	return fmt.Sprintf("open: %s, %s", n.Short(), damage.Where())
}

func (d *Desk) lastGrind(v inventory.View, set *inventory.Set, at time.Time) string {
	works := set.Works.Until(at)
	if len(works) == 0 {
		return "not ground yet"
	}
	last := works[len(works)-1]
	ago := at.Sub(last.When.Start)
	return fmt.Sprintf("last %s %s (%s ago), %d on this set", last.Value.Kind, last.When.Say(d.zone), sayAgo(ago), countWorks(v, set, at))
}

// countWorks counts the works on a set that was ground. Passes that came on top of a
// grind are part of it; which those are its runners know.
func countWorks(v inventory.View, set *inventory.Set, at time.Time) int {
	more := map[inventory.Key]bool{}
	for _, n := range []inventory.Number{set.Left, set.Right} {
		runner, err := inventory.FindRunner(v, n)
		if err != nil {
			continue
		}
		for _, work := range runner.Works.Until(at) {
			more[work.Event] = work.Value.More
		}
	}
	count := 0
	for _, work := range set.Works.Until(at) {
		if !more[work.Event] {
			count++
		}
	}
	return max(count, 1)
}

// sayAgo is a length of time as people say it.
func sayAgo(ago time.Duration) string {
	switch {
	case ago < 2*time.Minute:
		return fmt.Sprintf("%d s", int(ago.Seconds()))
	case ago < 2*time.Hour:
		return fmt.Sprintf("%d min", int(ago.Minutes()))
	case ago < 48*time.Hour:
		return fmt.Sprintf("%d h", int(ago.Hours()))
	}
	return fmt.Sprintf("%d days", int(ago.Hours()/24))
}

// heights are how high both runners are, with the change height.
func (d *Desk) heights(v *standing.Now, set *inventory.Set, specs inventory.Specs) string {
	line := "height"
	for _, h := range d.heightsOn(v, set, specs) {
		if h.Runner == 0 {
			continue
		}
		line += fmt.Sprintf("  %s %s", h.Side, h.Said)
		if h.Due {
			line += " TIME TO CHANGE"
		}
	}
	if specs.ChangeHeight != nil {
		line += fmt.Sprintf("  (change at %s)", specs.ChangeHeight)
	}
	return line
}

func (d *Desk) setCard(v *standing.Now, n inventory.Number, at time.Time) (Card, error) {
	set, err := inventory.FindSet(v, n)
	if err != nil {
		return Card{}, err
	}
	player, err := inventory.PlayerOf(v, set.Player)
	if err != nil {
		return Card{}, err
	}
	card := Card{Number: n, Title: fmt.Sprintf("set %s of %s", set.Letter, heading(player, at)), Player: player.Number}
	card.Target = Target{Player: player.Number, Set: n}
	for _, damage := range standing.Open(v, n, at) {
		card.Lines = append(card.Lines, sayDamage(damage.Piece, damage))
	}
	card.Lines = append(card.Lines,
		fmt.Sprintf("%s · left %s, right %s", standing.StateOf(v, n, at), set.Left.Short(), set.Right.Short()),
		d.lastGrind(v, set, at), d.heights(v, set, player.SpecsAt(at)))
	if place := standing.PlaceOf(v, n, at); place.Name != "" {
		card.Lines = append(card.Lines, "lies at "+place.String())
	}
	return card, nil
}

func (d *Desk) runnerCard(v inventory.View, n inventory.Number, at time.Time) (Card, error) {
	runner, err := inventory.FindRunner(v, n)
	if err != nil {
		return Card{}, err
	}
	wear := runner.WearAt(at)
	card := Card{Number: n, Title: describe(n, runner.Model, runner.Size, runner.SideAt(at))}
	set, err := inventory.FindSet(v, runner.SetAt(at))
	if err == nil {
		card.Player = set.Player
	}
	if err == nil && standing.RunnerState(v, runner, at) != inventory.Removed {
		card.Target = Target{Player: set.Player, Set: set.Number}
	}
	for _, damage := range standing.Open(v, n, at) {
		card.Lines = append(card.Lines, sayDamage(n, damage))
	}
	card.Lines = append(card.Lines, d.lifted(v, n, at)...)
	card.Lines = append(card.Lines,
		d.whose(v, runner, set, at),
		sayWork(runner, wear),
		fmt.Sprintf("height new %s, last %s", sayHeight(wear.HeightNew), sayHeight(wear.HeightLast)))
	for _, flag := range runner.Flags() {
		card.Lines = append(card.Lines, "check: "+flag.What)
	}
	return card, nil
}

// whose says where a runner is in its life: "on, set B of 17 Ansgar Lindqvarn".
func (d *Desk) whose(v inventory.View, runner *inventory.Runner, set *inventory.Set, at time.Time) string {
	state := string(standing.StateOf(v, runner.Number, at))
	if set == nil {
		return state + d.ofOld(v, runner, at)
	}
	player, err := inventory.PlayerOf(v, set.Player)
	if err != nil {
		return state
	}
	return fmt.Sprintf("%s, set %s of %s", state, set.Letter, heading(player, at))
}

func (d *Desk) holderCard(v inventory.View, n inventory.Number, at time.Time) (Card, error) {
	holder, err := inventory.FindHolder(v, n)
	if err != nil {
		return Card{}, err
	}
	card := Card{Number: n, Title: describe(n, holder.Model, holder.Size, holder.SideOf())}
	for _, damage := range standing.Open(v, n, at) {
		card.Lines = append(card.Lines, sayDamage(n, damage))
	}
	card.Lines = append(card.Lines, d.lifted(v, n, at)...)
	boot := holder.BootAt(at)
	if boot.Pair == 0 {
		card.Lines = append(card.Lines, "on no boot")
	} else if pair, err := inventory.FindPair(v, boot.Pair); err == nil {
		if player, err := inventory.PlayerOf(v, pair.Player); err == nil {
			card.Player = player.Number
			card.Lines = append(card.Lines, fmt.Sprintf("on the %s boot of %s's %s pair", boot.Side, heading(player, at), pair.Role(at)))
		}
	}
	if runner := holder.RunnerAt(at); runner != 0 {
		card.Lines = append(card.Lines, "runner "+runner.Short()+" is in it")
	}
	return card, nil
}

// describe names a runner or holder with what is known of it: "runner R1-1-77, Skua R
// 280 left".
func describe(n inventory.Number, model string, size int, side inventory.Side) string {
	about := strings.Join(strings.Fields(fmt.Sprint(model, " ", saySize(size), " ", side)), " ")
	if about == "" {
		return fmt.Sprintf("%s %s", n.Kind(), n.Short())
	}
	return fmt.Sprintf("%s %s, %s", n.Kind(), n.Short(), about)
}

// ofOld says of a runner that is in no set where its record comes from and whose it
// was, where only a tag or a marker pen tells.
func (d *Desk) ofOld(v inventory.View, runner *inventory.Runner, at time.Time) string {
	said := ""
	switch {
	case runner.KnownTag() != nil:
		said = ", known from its tag"
	case runner.Found != nil:
		said = fmt.Sprintf(", marked %q", runner.Found.Text)
		if strokes := inventory.SayStrokes(runner.Found.Text); strokes != "" {
			said += ", " + strokes
		}
	default:
		return ""
	}
	for _, stint := range runner.Stints(at) {
		if player, err := inventory.PlayerOf(v, stint.Player); err == nil {
			return said + ", was on " + heading(player, at)
		}
	}
	return said
}

// staleTag says of a scanned tag that describes itself that it is not the piece's
// present one. A number alone can't tell.
func staleTag(v inventory.View, text string, at time.Time) string {
	tally, err := inventory.ParseTally(inventory.AsScanned(text))
	if err != nil {
		return ""
	}
	state := standing.StateOf(v, tally.Piece, at)
	if state == "" {
		return ""
	}
	if generation := generationOf(v, tally.Piece, at); tally.Generation < generation || state != inventory.Removed {
		return "STALE TAG: the piece was put back in use since; throw this tag away"
	}
	return ""
}

// containerCard is what lies in a trunk or bin.
func containerCard(v inventory.View, n inventory.Number, at time.Time) (Card, error) {
	container, err := inventory.FindContainer(v, n)
	if err != nil {
		return Card{}, err
	}
	card := Card{Number: n, Title: fmt.Sprintf("%s %s: %s", n.Kind(), n.Short(), container.Name)}
	card.Lines = contentsOf(v, container.Name, at)
	if len(card.Lines) == 0 {
		card.Lines = []string{"nothing lies in it"}
	}
	if place := standing.PlaceOf(v, container.Number, at); place.Name != "" {
		card.Lines = append(card.Lines, "at "+place.String())
	}
	return card, nil
}
