package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) sparesVerb() *cobra.Command {
	var asked desk.SparesAsked
	var tags tagOutput
	var all bool
	cmd := &cobra.Command{
		Use: "spares [PLAYER…]", Short: "which spare pairs travel, and what to fix first", GroupID: groupAsk,
		Long: `Tell for every player whether the spare pair is ready: nothing open on it, the same
holder family, pitch, hollow and profile as he skates today, as high as the first pair,
ground since it was last skated, bolts and rivets looked at, tried, at a known place, and
with the club. Else the one thing to fix first, with the minutes that it takes.`,
		Example: "  steeltally spares --worst\n  steeltally spares 17 31\n  steeltally spares --trip \"Rime Point\" --out pairs.pdf",
		Args:    cobra.ArbitraryArgs,
		RunE: func(_ *cobra.Command, args []string) error {
			return a.reading(func(d *desk.Desk) error {
				var err error
				if asked.Players, err = a.players(d, args); err != nil {
					return err
				}
				lines, err := d.Spares(asked)
				if err != nil {
					return err
				}
				return a.saySpares(d, lines, len(args) > 0 || all, tags)
			})
		},
	}
	flags := cmd.Flags()
	flags.BoolVar(&asked.Worst, "worst", false, "what is missing or takes longest first")
	flags.StringVar(&asked.Trip, "trip", "", "only who comes along on a trip")
	flags.BoolVar(&all, "all", false, "everything that was compared")
	tags.addFlags(cmd)
	cmd.AddCommand(a.sparesRules())
	return cmd
}

// players makes the names of players unambiguous.
func (a *app) players(d *desk.Desk, texts []string) ([]string, error) {
	sure := make([]string, len(texts))
	for i, text := range texts {
		who, err := a.player(d, text)
		if err != nil {
			return nil, err
		}
		sure[i] = who
	}
	return sure, nil
}

// sparesTold are the spare pairs for programs.
type sparesTold struct {
	Players []desk.SpareLine `json:"players"`
	Printed int              `json:"tags_printed"`
}

func (a *app) saySpares(d *desk.Desk, lines []desk.SpareLine, details bool, tags tagOutput) error {
	printed, err := a.wantedTags(d, lines, tags)
	if err != nil {
		return err
	}
	var rows [][]string
	counts := map[string]int{}
	for _, line := range lines {
		counts[string(line.State)]++
		rows = append(rows, spareRow(line))
	}
	a.voice.table([]string{"no", "name", "spare pair", "fix first", "min", "place"}, rows)
	if details {
		for _, line := range lines {
			a.saySpareDetails(line)
		}
	}
	a.voice.say("%d ready, %d to fix first, %d missing, %d that their players would rather not use",
		counts["ready"], counts["fix"], counts["missing"], counts["declined"])
	if wanted := desk.WantedTags(lines); len(wanted) > 0 && printed.Tags == 0 {
		a.voice.say("%s missing or out of date: add --print PRINTER or --out FILE", desk.SayCount(len(wanted), "tag"))
	}
	a.sayTags(printed)
	return a.voice.told(sparesTold{lines, printed.Tags})
}

// wantedTags prints the pair tags that are missing or out of date, where asked to.
func (a *app) wantedTags(d *desk.Desk, lines []desk.SpareLine, tags tagOutput) (desk.Printed, error) {
	wanted := desk.WantedTags(lines)
	if len(wanted) == 0 || tags.out == "" && tags.printer == "" {
		return desk.Printed{}, nil
	}
	return d.PrintTags(tags.job(wanted, "pair"))
}
