package cli

import (
	"cmp"
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) clearoutVerb() *cobra.Command {
	var but []string
	var scrap bool
	var reason string
	cmd := &cobra.Command{
		Use: "clearout [PLACE]", Short: "season's end: what lies where, and what is thrown away", GroupID: groupStock,
		Long: `List what lies about at the season's end, by trunk and bin. With a place and --scrap
everything that is done with there is thrown away, but for what is named; the history of
all of it stays.`,
		Example: "  steeltally clearout\n  steeltally clearout \"bin 3\" --scrap --but R1-1-77,H1-2-40 --reason \"season 2025/26\"",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if scrap && len(args) == 0 {
				return usage("say the place: steeltally clearout \"bin 3\" --scrap")
			}
			if scrap {
				return a.act(func(d *desk.Desk) (desk.Done, error) { return d.ScrapAt(args[0], reason, but) })
			}
			return a.reading(func(d *desk.Desk) error { return a.sayLying(d, args) })
		},
	}
	flags := cmd.Flags()
	flags.BoolVar(&scrap, "scrap", false, "throw away what is done with there")
	flags.StringSliceVar(&but, "but", nil, "pieces that are kept")
	flags.StringVar(&reason, "reason", "", "why")
	return cmd
}

// sayLying lists the places, or what lies at one.
func (a *app) sayLying(d *desk.Desk, only []string) error {
	places, err := d.LyingAbout()
	if err != nil {
		return err
	}
	shown := []desk.Lying{}
	for _, place := range places {
		if len(only) == 0 || place.Place == only[0] {
			shown = append(shown, place)
		}
	}
	var rows [][]string
	for _, place := range shown {
		rows = append(rows, []string{cmp.Or(place.Place, "place not known"), fmt.Sprint(len(place.Done)), fmt.Sprint(len(place.Usable))})
	}
	a.voice.table([]string{"place", "done with", "usable"}, rows)
	if len(only) > 0 && len(shown) > 0 {
		for _, n := range shown[0].Done {
			a.voice.say("  %s", n.Short())
		}
	}
	return a.voice.told(answer{Places: shown})
}
