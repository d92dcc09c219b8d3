package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
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
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.AddTrip(args[0], from, to) }),
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
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			trips, err := d.Trips(all)
			if err != nil {
				return err
			}
			return tabled(a.voice, answer{Trips: trips}, trips, []string{"trip", "from", "to", "pieces", "trunks", "short"}, func(t desk.TripLine) []string {
				return []string{t.Name, t.From, t.To, sayCount(t.Pieces), sayCount(t.Trunks), sayCount(t.Short)}
			})
		}),
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
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.NoteKit(args[0], least) }),
	}
	cmd.Flags().IntVar(&least, "least", 1, "the least number")
	return cmd
}

func (a *app) tripKits() *cobra.Command {
	return &cobra.Command{
		Use: "kits", Short: "the kits, with their least numbers", Args: cobra.NoArgs,
		Example: "  steeltally trip kits",
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			kits, err := d.Kits()
			if err != nil {
				return err
			}
			for _, kit := range kits {
				a.voice.say("%4d  %s", kit.Least, kit.Kit)
			}
			return a.voice.told(answer{Kits: kits})
		}),
	}
}

// tripCount counts trunks, out or back.
func (a *app) tripCount(use, shortText string, back bool) *cobra.Command {
	var from string
	cmd := &cobra.Command{
		Use: use + " NAME [TRUNK…]", Short: shortText,
		Example: fmt.Sprintf("  steeltally trip %s \"Rime Point\" --from -", use),
		Args:    cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			scans, err := a.scansAndTyped(cmd, from, args[1:])
			if err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				done, missing, err := d.CountTrunks(args[0], scans, back)
				if err == nil && len(missing) == 0 {
					a.voice.say("all trunks are here")
				}
				return a.sayTaken(done, err, answer{NotHere: missing})
			})
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "a file of scans, one a line, or a picture; - is the standard input")
	return cmd
}

func (a *app) tripManifest() *cobra.Command {
	var sheet desk.Sheet
	var tags tagOutput
	cmd := &cobra.Command{
		Use: "manifest NAME", Short: "what is in which trunk, on screen or on paper; and the trunks' tags",
		Example: "  steeltally trip manifest \"Rime Point\" --pdf manifest.pdf\n  steeltally trip manifest \"Rime Point\" --out trunks.pdf",
		Args:    cobra.ExactArgs(1),
		RunE: a.reads(func(d *desk.Desk, args []string) error {
			if tags.out != "" || tags.printer != "" {
				return a.trunkTags(d, args[0], tags)
			}
			if sheet.File != "" {
				return a.wrote(d.PrintManifest(args[0], sheet))
			}
			return a.sayManifest(d, args[0])
		}),
	}
	a.sheetFlags(cmd, &sheet)
	tags.addFlags(cmd)
	return cmd
}

func (a *app) trunkTags(d *desk.Desk, trip string, tags tagOutput) error {
	trunks, err := d.TripTrunks(trip)
	if err != nil {
		return err
	}
	printed, err := d.PrintTags(tags.job(trunks, "trunk"))
	if err != nil {
		return err
	}
	a.sayTags(printed)
	return a.voice.told(printed)
}

func (a *app) sayManifest(d *desk.Desk, trip string) error {
	manifest, err := d.Manifest(trip)
	if err != nil {
		return err
	}
	if len(manifest) == 0 {
		a.voice.say("nothing is packed")
	}
	for _, trunk := range manifest {
		a.voice.say("%s %s", trunk.Name, trunk.Trunk.Short())
		for _, line := range trunk.In {
			a.voice.say("  %-10s %4d  %s  %s", line.Number.Short(), line.Count, line.What, line.Owner)
		}
	}
	return a.voice.told(answer{Trip: trip, Trunks: manifest})
}

func (a *app) tripPack() *cobra.Command {
	var from, trunk string
	var out bool
	cmd := &cobra.Command{
		Use: "pack NAME [SCAN…]", Short: "put pieces and kits into trunks: one scan a piece",
		Long: `Put pieces into trunks, one scan a piece: the trunk first, then what goes into it, then
the next trunk. A player's sweater or tag stands for his spare pair; "250 x rivets 5 mm"
counts a kit. The file may be a picture of many tags: then say the trunk with --trunk.
What can't be taken is named, and everything else is recorded.`,
		Example: "  steeltally trip pack \"Rime Point\" --from -\n  steeltally trip pack \"Rime Point\" --from trunk3.jpg --trunk \"Trunk 3\"",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			scans, err := a.scansAndTyped(cmd, from, args[1:])
			if err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				done, err := d.Pack(args[0], trunk, scans, out)
				return a.sayTaken(done, err, answer{})
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&from, "from", "", "a file of scans, one a line, or a picture; - is the standard input")
	flags.StringVar(&trunk, "trunk", "", "the trunk that all of it goes into")
	flags.BoolVar(&out, "take-out", false, "it comes out again")
	return cmd
}

// scansAndTyped adds the scans of a file, or the tags of a picture, to what was typed.
func (a *app) scansAndTyped(cmd *cobra.Command, file string, args []string) ([]string, error) {
	if file == "" {
		return args, nil
	}
	scans, err := a.scansOf(cmd.Context(), file)
	return append(append([]string(nil), args...), scans...), err
}

// sayTaken says what was recorded, and which scans were not taken.
func (a *app) sayTaken(done desk.Done, err error, more answer) error {
	var not *desk.NotTakenError
	if err == nil {
		return a.voice.done(done, more)
	}
	if !errors.As(err, &not) {
		return err
	}
	more.NotTaken = not.Unread
	a.voice.doneBefore(done, more)
	for _, scan := range not.Unread {
		a.voice.notice(inventory.Notice{Text: fmt.Sprintf("line %d, %q: %s", scan.Line, scan.Scan, scan.Reason)})
	}
	return err
}

func (a *app) tripShort() *cobra.Command {
	return &cobra.Command{
		Use: "short NAME", Short: "what should be in and isn't",
		Example: "  steeltally trip short \"Rime Point\"",
		Args:    cobra.ExactArgs(1),
		RunE: a.reads(func(d *desk.Desk, args []string) error {
			short, err := d.Short(args[0])
			if err != nil {
				return err
			}
			a.sayLacking(short)
			return a.voice.told(short)
		}),
	}
}

func (a *app) sayLacking(short desk.TripShort) {
	var rows [][]string
	for _, s := range short.Short {
		rows = append(rows, []string{sayCount(s.Sweater), s.Name, s.What, s.Number.Short(), s.Why, s.Place})
	}
	if len(rows) > 0 {
		a.voice.table([]string{"no", "name", "what", "number", "why", "last at"}, rows)
	}
	for _, trunk := range short.Trunks {
		a.voice.say("%s is not here", trunk.Name)
	}
	a.voice.say("%s packed, %d short", desk.SayCount(short.Packed, "piece"), len(short.Short))
}
