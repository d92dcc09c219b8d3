package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

func (a *app) gameVerb() *cobra.Command {
	return parent(&cobra.Command{Use: "game", Short: "the schedule of games and practices", GroupID: groupStock, Args: cobra.NoArgs}, a.gameAdd(), a.gameImport(), a.gameList())
}

func (a *app) gameAdd() *cobra.Command {
	session := deeds.AddSession{}
	var practice bool
	cmd := &cobra.Command{
		Use: "add START", Short: "a game, or a practice; it may be still to come",
		Example: "  steeltally game add 2025-12-06T19:00 --against \"Rime Point\" --away\n" +
			"  steeltally game add 2025-12-05T10:00 --practice",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			session.Game = !practice
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.AddSession(args[0], session) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&session.Opponent, "against", "", "the opponent")
	flags.BoolVar(&session.Away, "away", false, "not at home")
	flags.BoolVar(&practice, "practice", false, "a practice")
	flags.StringVar(&session.Note, "note", "", "anything else")
	cmd.MarkFlagsOneRequired("against", "practice")
	cmd.MarkFlagsMutuallyExclusive("against", "practice")
	return cmd
}

func (a *app) gameImport() *cobra.Command {
	var how desk.ImportGames
	var encoding string
	cmd := &cobra.Command{
		Use: "import FILE.ics", Short: "bring the schedule up to a calendar file (iCalendar)",
		Long: `Take games and practices from a calendar file. Games are known by their names ("Terns vs
Rime Point", "@ Rime Point"), practices by theirs. Import the next version of the file
again: what moved moves, what was called off goes, and nothing is there twice.`,
		Example: "  steeltally game import season.ics\n  steeltally game import season.ics --home \"Harbour Hall\" --as practice",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if how.As != "" && how.As != "game" && how.As != "practice" {
				return usage("--as is game or practice")
			}
			file, _, err := a.open(args[0])
			if err != nil {
				return err
			}
			defer file.Close()
			read, err := desk.ReadCalendar(a.options(), file, encoding)
			if err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				imported, done, err := d.ImportGames(read, how)
				if err != nil {
					return err
				}
				return a.sayImported(imported, done)
			})
		},
	}
	cmd.Flags().StringVar(&how.Home, "home", "", "what the place of home games is called in the file")
	cmd.Flags().StringVar(&how.As, "as", "", "take what is neither by its name for a game or a practice")
	cmd.Flags().StringVar(&encoding, "encoding", "", "what the file is written in: "+list(desk.TextEncodings()))
	return cmd
}

// sayImported counts what was in the file; the entries themselves are in game list.
func (a *app) sayImported(imported desk.Imported, done desk.Done) error {
	a.voice.say("%s and %s in the file", desk.SayCount(imported.Games, "game"), desk.SayCount(imported.Practices, "practice"))
	for _, left := range imported.LeftOut {
		a.voice.say("left out: %s: %s", strings.TrimSpace(left.Entry+" "+left.Start), left.Reason)
	}
	a.voice.notices(done.Notices)
	return a.voice.told(imported, recorded(done))
}

func (a *app) gameList() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use: "list", Short: "the last week and the next two months", Args: cobra.NoArgs,
		Example: "  steeltally game list\n  steeltally game list --all",
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			lines, err := d.Schedule(all)
			if err != nil {
				return err
			}
			for _, line := range lines {
				switch {
				case !line.Game:
					a.voice.say("%-18s practice %s", line.Start, line.Note)
				case line.Away:
					a.voice.say("%-18s at %s", line.Start, line.Opponent)
				default:
					a.voice.say("%-18s against %s", line.Start, line.Opponent)
				}
			}
			return a.voice.told(answer{Schedule: lines})
		}),
	}
	cmd.Flags().BoolVar(&all, "all", false, "a year back and a year ahead")
	return cmd
}
