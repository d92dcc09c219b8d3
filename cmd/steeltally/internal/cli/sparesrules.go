package cli

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) sparesRules() *cobra.Command {
	var rules inventory.SpareRules
	var player string
	var minutes []string
	cmd := &cobra.Command{
		Use: "rules", Short: "set when a spare pair counts as ready, for the club or one player",
		Long: `Set when a spare pair counts as ready; what is not given stays. --minutes says how long
the club takes for a fix, one of:
` + "\n  " + list(desk.Fixes()),
		Example: "  steeltally spares rules --height-within 0.5mm --tried-within 30 --looked-within 14\n" +
			"  steeltally spares rules --player 17 --height-within 0.3mm\n  steeltally spares rules --minutes grind=3 --minutes holder=12",
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			var err error
			if rules.Minutes, err = fixTimes(minutes); err != nil {
				return err
			}
			return a.actOn(player, func(d *desk.Desk, who string) (desk.Done, error) { return d.SetRules(who, rules) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&player, "player", "", "for this player only")
	flags.Var(lengthFlag(&rules.HeightWithin), "height-within", "how far from the first pair's height, such as 0.5mm")
	flags.Var(countFlag(&rules.TriedDays), "tried-within", "days for which a try counts")
	flags.Var(countFlag(&rules.LookedDays), "looked-within", "days for which a look at bolts and rivets counts")
	flags.Var(countFlag(&rules.Sets), "ready-sets", "ready sets that travel with a player")
	flags.StringArrayVar(&minutes, "minutes", nil, "how long a fix takes: grind=4")
	return cmd
}

// fixTimes reads what was given as FIX=MINUTES.
func fixTimes(texts []string) ([]inventory.FixTime, error) {
	var times []inventory.FixTime
	for _, text := range texts {
		fix, count, _ := strings.Cut(text, "=")
		minutes, err := strconv.Atoi(count)
		if err != nil {
			return nil, usage("%q: write the fix and its minutes, such as grind=4", text)
		}
		known := false
		for _, word := range desk.Fixes() {
			known = known || word == fix
		}
		if !known {
			return nil, &usageError{fmt.Errorf("fix %q is not known; take one of %s", fix, list(desk.Fixes()))}
		}
		times = append(times, inventory.FixTime{Fix: fix, Minutes: minutes})
	}
	return times, nil
}
