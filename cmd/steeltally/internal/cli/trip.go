package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) tripVerb() *cobra.Command {
	cmd := &cobra.Command{
		Use: "trip", Short: "trips: who comes along, what is in which trunk, what is short", GroupID: groupStock, Args: cobra.NoArgs,
		Long: `Plan a trip, pack its trunks with one scan a piece, count the trunks out and back.
Trunks are entered once with steeltally stockin trunk --name "Trunk 9".`,
	}
	cmd.AddCommand(
		a.tripAdd(), a.tripList(), a.tripRoster(), a.tripPack(), a.tripShort(),
		a.tripCount("load", "trunks go out: one scan a trunk", false), a.tripCount("back", "trunks are back: one scan a trunk", true),
		a.tripManifest(), a.tripKit(), a.tripKits(),
	)
	return cmd
}

func (a *app) tripAdd() *cobra.Command {
	var from, to string
	cmd := &cobra.Command{
		Use: "add NAME --from DATE --to DATE", Short: "add a trip, or change its days",
		Example: "  steeltally trip add \"Rime Point\" --from 2025-12-03 --to 2025-12-07",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.AddTrip(args[0], from, to) })
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "the day of leaving")
	cmd.Flags().StringVar(&to, "to", "", "the day of coming back")
	cmd.MarkFlagRequired("from")
	cmd.MarkFlagRequired("to")
	return cmd
}

func (a *app) tripList() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use: "list", Short: "the trips of the last month and those to come", Args: cobra.NoArgs,
		Example: "  steeltally trip list\n  steeltally trip list --all",
		RunE: func(*cobra.Command, []string) error {
			return a.reading(func(d *desk.Desk) error {
				trips, err := d.Trips(all)
				if err != nil {
					return err
				}
				return tabled(a.voice, answer{Trips: trips}, trips, []string{"trip", "from", "to", "pieces", "trunks", "short"}, func(t desk.TripLine) []string {
					return []string{t.Name, t.From, t.To, sayCount(t.Pieces), sayCount(t.Trunks), sayCount(t.Short)}
				})
			})
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "those that are long over too")
	return cmd
}

func (a *app) tripRoster() *cobra.Command {
	var with, without []string
	cmd := &cobra.Command{
		Use: "roster NAME", Short: "who comes along; everybody, unless told",
		Example: "  steeltally trip roster \"Rime Point\"\n  steeltally trip roster \"Rime Point\" --without 7,19",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(with)+len(without) == 0 {
				return a.reading(func(d *desk.Desk) error { return a.sayRoster(d, args[0]) })
			}
			who, stay := with, false
			if len(without) > 0 {
				who, stay = without, true
			}
			return a.act(func(d *desk.Desk) (desk.Done, error) {
				players, err := a.players(d, who)
				if err != nil {
					return desk.Done{}, err
				}
				return d.ChangeRoster(args[0], players, stay)
			})
		},
	}
	cmd.Flags().StringSliceVar(&with, "with", nil, "players who come along")
	cmd.Flags().StringSliceVar(&without, "without", nil, "players who stay at home")
	cmd.MarkFlagsMutuallyExclusive("with", "without")
	return cmd
}

func (a *app) sayRoster(d *desk.Desk, trip string) error {
	roster, games, err := d.Roster(trip)
	if err != nil {
		return err
	}
	for _, game := range games {
		where := "against"
		if game.Away {
			where = "at"
		}
		a.voice.say("%s %s %s", game.Start, where, game.Opponent)
	}
	var rows [][]string
	for _, p := range roster {
		called := ""
		if p.CalledUp {
			called = "called up"
		}
		rows = append(rows, []string{sayCount(p.Sweater), p.Name, called, string(p.State)})
	}
	a.voice.table([]string{"no", "name", "", "spare pair"}, rows)
	return a.voice.told(answer{Trip: trip, Games: games}, playerList[desk.RosterLine]{roster})
}

func (a *app) tripKit() *cobra.Command {
	var least int
	cmd := &cobra.Command{
		Use: "kit NAME --least COUNT", Short: "what travels that is not steel, and how many of it at least",
		Long: `Say what travels that is not steel, and how many of it at least: rivets by length, tools,
wheels by hollow, a dresser, power leads, eye protection, guards. 0 takes it off the list.`,
		Example: "  steeltally trip kit \"rivets 5 mm\" --least 200",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.NoteKit(args[0], least) })
		},
	}
	cmd.Flags().IntVar(&least, "least", 1, "the least number")
	return cmd
}

func (a *app) tripKits() *cobra.Command {
	return &cobra.Command{
		Use: "kits", Short: "the kits, with their least numbers", Args: cobra.NoArgs,
		Example: "  steeltally trip kits",
		RunE: func(*cobra.Command, []string) error {
			return a.reading(func(d *desk.Desk) error {
				kits, err := d.Kits()
				if err != nil {
					return err
				}
				for _, kit := range kits {
					a.voice.say("%4d  %s", kit.Least, kit.Kit)
				}
				return a.voice.told(answer{Kits: kits})
			})
		},
	}
}
