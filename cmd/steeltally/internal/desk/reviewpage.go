package desk

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/labels/report"
)

// playerReview adds up what a player's removed runners tell.
type playerReview struct {
	sweater, sets, removed, grinds, passes, unknown int
	name                                            string
	final                                           []geometry.Millimetre
	below                                           int // taken off below the change height of today
	broken                                          int
}

// reviewPage is the club in one page of tables, from the record as it stands.
func (d *Desk) reviewPage() (report.Report, error) {
	page := report.Report{}
	err := d.ask(func(v inventory.View, at time.Time) error {
		players := map[inventory.Number]*playerReview{}
		for _, entity := range eachOf(v, inventory.KindRunner) {
			addRunner(v, entity.(*inventory.Runner), at, players)
		}
		page.Title = inventory.ClubOf(v).Name + ": steel in use"
		page.Notes = []string{
			"Until " + inventory.At(at).SayDay(d.zone) + ". Removed runners only; heights in mm, in the middle of the runner.",
			"Median: half of them were taken off lower. Unknown: grinds of which nobody knows the passes.",
		}
		page.Tables = []report.Table{playersTable(players)}
		return nil
	})
	return page, err
}

// addRunner adds a removed runner to its player's line.
func addRunner(v inventory.View, runner *inventory.Runner, at time.Time, players map[inventory.Number]*playerReview) {
	stints := runner.Stints(at)
	if len(stints) == 0 || runner.StateAt(at) != inventory.Removed {
		return
	}
	last := stints[len(stints)-1]
	player, err := inventory.PlayerOf(v, last.Player)
	if err != nil || player.Gone {
		return
	}
	line := players[last.Player]
	if line == nil {
		line = &playerReview{sweater: player.Sweater(at), name: player.Name, sets: len(player.Used)}
		players[last.Player] = line
	}
	wear := runner.WearAt(at)
	line.removed++
	line.grinds += wear.Grinds
	line.passes += wear.Passes
	line.unknown += wear.UnknownWorks
	if last.Reason != "low" {
		line.broken += len(runner.OpenDamages(at))
	}
	if wear.HeightFinal != nil {
		line.final = append(line.final, *wear.HeightFinal)
		if change := player.SpecsAt(at).ChangeHeight; change != nil && *wear.HeightFinal < *change {
			line.below++
		}
	}
}

func playersTable(players map[inventory.Number]*playerReview) report.Table {
	table := report.Table{Title: "By player", Empty: "No runner was removed yet."}
	for _, title := range []string{"No", "Player", "Sets used", "Removed", "Grinds", "Passes", "Unknown", "Median height", "Lowest", "Below change", "Damaged"} {
		table.Columns = append(table.Columns, report.Column{Title: title, Right: title != "Player"})
	}
	lines := []*playerReview{}
	for _, line := range players {
		lines = append(lines, line)
	}
	slices.SortFunc(lines, func(a, b *playerReview) int {
		return cmp.Or(cmp.Compare(a.sweater, b.sweater), cmp.Compare(a.name, b.name))
	})
	for _, p := range lines {
		middle, lowest := "–", "–"
		if slices.Sort(p.final); len(p.final) > 0 {
			middle, lowest = sayBare(median(p.final)), sayBare(p.final[0])
		}
		table.Rows = append(table.Rows, []string{
			fmt.Sprint(p.sweater), p.name, fmt.Sprint(p.sets), fmt.Sprint(p.removed), fmt.Sprint(p.grinds), fmt.Sprint(p.passes),
			fmt.Sprint(p.unknown), middle, lowest, fmt.Sprint(p.below), fmt.Sprint(p.broken),
		})
	}
	return table
}

func median(sorted []geometry.Millimetre) geometry.Millimetre {
	half := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[half]
	}
	return (sorted[half-1] + sorted[half]) / 2
}

func sayBare(height geometry.Millimetre) string { return fmt.Sprintf("%.2f", float64(height)) }
