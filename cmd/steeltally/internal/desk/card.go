package desk

import (
	"cmp"
	"fmt"
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
	err := d.ask(func(v inventory.View, at time.Time) error {
		var err error
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

func (d *Desk) card(v inventory.View, text string, at time.Time) (Card, error) {
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
func (d *Desk) playerCard(v inventory.View, target Target, at time.Time) (Card, error) {
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
	set, err := inventory.FindSet(v, pair.SetAt(at))
	if err != nil {
		card.Lines = []string{specs.String(), fmt.Sprintf("no set is on the %s pair", pair.Role(at))}
		return card, nil
	}
	card.Lines = append(card.Lines, fmt.Sprintf("%s pair, set %s · %s", pair.Role(at), set.Letter, specs.String()))
	card.Lines = append(card.Lines, d.warnings(v, set, pair, at)...)
	card.Lines = append(card.Lines, d.lastGrind(v, set, at), d.heights(v, set, specs, at))
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
func (d *Desk) warnings(v inventory.View, set *inventory.Set, pair *inventory.Pair, at time.Time) []string {
	var lines, flags []string
	pieces := []inventory.Number{set.Left, set.Right, pair.HolderAt(inventory.Left, at), pair.HolderAt(inventory.Right, at)}
	for _, n := range pieces {
		if n == 0 {
			continue
		}
		state := v.Entity(inventory.RefOf(n))
		for _, damage := range openDamages(state, at) {
			lines = append(lines, sayDamage(n, damage))
		}
		for _, flag := range flagsOf(state) {
			flags = append(flags, fmt.Sprintf("check %s: %s", n.Short(), flag.What))
		}
	}
	return append(lines, flags...)
}

func sayDamage(n inventory.Number, damage inventory.Damaged) string {
	if damage.Unsafe {
		return fmt.Sprintf("DO NOT SKATE: %s, %s", n.Short(), damage.Where())
	}
	return fmt.Sprintf("open: %s, %s", n.Short(), damage.Where())
}

func openDamages(state inventory.Entity, at time.Time) []inventory.Damaged {
	if marked, ok := state.(interface {
		OpenDamages(time.Time) []inventory.Damaged
	}); ok {
		return marked.OpenDamages(at)
	}
	return nil
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

// heights are the last heights of both runners, with what is left to change height.
func (d *Desk) heights(v inventory.View, set *inventory.Set, specs inventory.Specs, at time.Time) string {
	line := "height"
	for _, h := range heightsOn(v, set, specs, at) {
		switch {
		case h.Runner == 0:
			continue
		case h.Height == nil:
			line += fmt.Sprintf("  %s not known", h.Side)
		default:
			line += fmt.Sprintf("  %s %s", h.Side, h.Height)
		}
		if h.Due {
			line += " TIME TO CHANGE"
		}
	}
	if specs.ChangeHeight != nil {
		line += fmt.Sprintf("  (change at %s)", specs.ChangeHeight)
	}
	return line
}

func (d *Desk) setCard(v inventory.View, n inventory.Number, at time.Time) (Card, error) {
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
	card.Lines = []string{
		fmt.Sprintf("%s · left %s, right %s", standing.StateOf(v, n, at), set.Left.Short(), set.Right.Short()),
		d.lastGrind(v, set, at), d.heights(v, set, player.SpecsAt(at), at),
	}
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
	for _, damage := range runner.OpenDamages(at) {
		card.Lines = append(card.Lines, sayDamage(n, damage))
	}
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
	for _, damage := range holder.OpenDamages(at) {
		card.Lines = append(card.Lines, sayDamage(n, damage))
	}
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
