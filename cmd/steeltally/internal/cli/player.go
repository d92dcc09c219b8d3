package cli

import (
	"strconv"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) playerVerb() *cobra.Command {
	return parent(&cobra.Command{Use: "player", Short: "the club's players", GroupID: groupStock, Args: cobra.NoArgs}, a.playerAdd(), a.playerSet(), a.playerList())
}

func (a *app) playerAdd() *cobra.Command {
	player := deeds.AddPlayer{}
	cmd := &cobra.Command{
		Use: "add --name NAME", Short: "add a player",
		Example: `  steeltally player add --sweater 17 --name "Ansgar Lindqvarn" --position defence`,
		Args:    cobra.NoArgs,
		RunE: a.uses(func(d *desk.Desk, _ []string) error {
			number, done, err := d.AddPlayer(player)
			return a.did(done, err, answer{Number: number, Sweater: &player.Sweater})
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&player.Name, "name", "", "name as it shall stand on tags")
	flags.Var(sweaterFlag(&player.Sweater), "sweater", "sweater number; leave it out in camp")
	flags.StringVar(&player.Position, "position", "forward", "goalkeeper, defence or forward")
	cmd.MarkFlagRequired("name")
	completeWords(cmd, "position", inventory.Positions())
	return cmd
}

func (a *app) playerSet() *cobra.Command {
	var sweater *int
	var name, position, season string
	var gone, back bool
	cmd := &cobra.Command{
		Use: "set PLAYER", Short: "change a player's sweater, name or position from now on",
		Long: `Change what is said of a player from now on, or from --at on. With --season say what sweater
he wore in an earlier one: old pieces of that sweater and season that were nobody's are his.`,
		Example: "  steeltally player set 17 --sweater 71\n  steeltally player set 17 --sweater 38 --season 2023/24",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if season != "" && sweater == nil {
				return usage("--season says when he wore a --sweater")
			}
			if season != "" {
				return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.WoreSweater(who, *sweater, season) })
			}
			change := deeds.ChangePlayer{Sweater: sweater}
			if name != "" {
				change.Name = &name
			}
			if position != "" {
				change.Position = &position
			}
			if gone || back {
				change.Gone = &gone
			}
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.ChangePlayer(who, change) })
		},
	}
	flags := cmd.Flags()
	flags.Var(countFlag(&sweater), "sweater", "sweater number")
	flags.StringVar(&season, "season", "", "he wore that sweater in this season: 2023/24")
	flags.StringVar(&name, "name", "", "name")
	flags.StringVar(&position, "position", "", "goalkeeper, defence or forward")
	flags.BoolVar(&gone, "gone", false, "has left the club; the history stays")
	flags.BoolVar(&back, "back", false, "is with the club again")
	cmd.MarkFlagsOneRequired("sweater", "name", "position", "gone", "back")
	cmd.MarkFlagsMutuallyExclusive("gone", "back")
	for _, other := range []string{"name", "position", "gone", "back"} {
		cmd.MarkFlagsMutuallyExclusive("season", other)
	}
	return cmd
}

func (a *app) playerList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "who is there, in sweater order", Args: cobra.NoArgs,
		Example: "  steeltally player list",
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			players, err := d.Players()
			if err != nil {
				return err
			}
			return tabled(a.voice, playerList[desk.PlayerLine]{players}, players, []string{"no", "name", "position", "on", "specs", "number"}, func(p desk.PlayerLine) []string {
				return []string{sayCount(p.Sweater), p.Name, p.Position, p.On, p.Specs, p.Number.Short()}
			})
		}),
	}
}

// sayCount writes a number that is not there as a dash.
func sayCount(n int) string {
	if n == 0 {
		return "–"
	}
	return strconv.Itoa(n)
}

// wordFlag adds a flag that takes one of some words: its help lists them, and the shell
// offers them.
func wordFlag[T ~string](cmd *cobra.Command, value *T, flag, what string, words []T) {
	cmd.Flags().Var(wordValue[T]{value}, flag, what+": "+list(words))
	completeWords(cmd, flag, words)
}

// wordValue is a flag's value that is a word of the record.
type wordValue[T ~string] struct{ value *T }

func (w wordValue[T]) String() string { return string(*w.value) }
func (w wordValue[T]) Type() string   { return "string" }
func (w wordValue[T]) Set(text string) error {
	*w.value = T(text)
	return nil
}

// wordsOf names the note on a flag that holds the words it takes.
const wordsOf = "words"

// completeWords notes a flag's words, for the shell to offer.
func completeWords[T ~string](cmd *cobra.Command, flag string, words []T) {
	cmd.Flags().SetAnnotation(flag, wordsOf, inventory.Texts(words))
}

// offerWords registers them where a shell asks: the library keeps what is registered for good.
func offerWords(cmd *cobra.Command) {
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if words := f.Annotations[wordsOf]; words != nil {
			cmd.RegisterFlagCompletionFunc(f.Name, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
		}
	})
	for _, verb := range cmd.Commands() {
		offerWords(verb)
	}
}

func (a *app) specsVerb() *cobra.Command {
	specs := inventory.Specs{}
	cmd := &cobra.Command{
		Use: "specs PLAYER", Short: "how a player's steel shall be, from now on", GroupID: groupStock,
		Long: `Say how a player's steel shall be from now on; what is left out stays as it was.

Pitch is heel minus toe: above zero leans forward. The change height is where this
player's steel is changed.`,
		Example: "  steeltally specs 17 --hollow 1/2in --profile 11ft --passes 5 --change-height 8.4mm\n" +
			"  steeltally specs 30 --hollow 28ft --profile 28ft",
		Args: cobra.ExactArgs(1),
		RunE: a.actsOn(func(d *desk.Desk, who string, _ []string) (desk.Done, error) { return d.NoteSpecs(who, specs) }),
	}
	flags := cmd.Flags()
	flags.Var(cutFlag(&specs.Hollow), "hollow", `hollow, or "flat WIDTH EDGE-HEIGHT"`)
	flags.Var(profileFlag(&specs.Profile), "profile", "profile; several radii from toe to heel as 9ft+13ft")
	flags.Var(lengthFlag(&specs.Pitch), "pitch", "heel minus toe")
	flags.Var(countFlag(&specs.Passes), "passes", "usual passes a side")
	flags.Var(heightFlag(&specs.ChangeHeight), "change-height", "height at which the steel is changed")
	return cmd
}
