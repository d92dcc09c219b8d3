package cli

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
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
		RunE: a.reads(func(d *desk.Desk, args []string) error {
			var err error
			if asked.Players, err = a.players(d, args); err != nil {
				return err
			}
			lines, err := d.Spares(asked)
			if err != nil {
				return err
			}
			return a.saySpares(d, lines, len(args) > 0 || all, tags)
		}),
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

// spareWords are the states as people say them.
func spareWords(line desk.SpareLine) string {
	switch line.State {
	case "fix":
		return "fix first"
	case "missing":
		return "MISSING"
	case "declined":
		return "ready, he would rather not"
	}
	return string(line.State)
}

func spareRow(line desk.SpareLine) []string {
	minutes, cause := "", line.Cause
	if line.State == "fix" {
		minutes = fmt.Sprint(line.Minutes)
		if more := len(line.Causes) - 1; more > 0 {
			cause += fmt.Sprintf(" (and %d more, %d min)", more, line.MinutesAll)
		}
	}
	if line.State == "declined" {
		cause = ""
	}
	name := line.Name
	if line.CalledUp {
		name += " (called up)"
	}
	return []string{sayCount(line.Sweater), name, spareWords(line), cause, minutes, line.Place}
}

// saySpareDetails says what was compared and everything that is to be mended.
func (a *app) saySpareDetails(line desk.SpareLine) {
	a.voice.say("\n%s, spare pair %s", line.Whose(), inventory.OrDash(line.Pair.Short()))
	for _, cause := range line.Causes {
		a.voice.say("  %-8s %s (%d min): %s", cause.Fix, cause.What, cause.Minutes, cause.Hint)
	}
	c := line.Compared
	rows := [][3]string{
		{"hollow", c.Hollow, c.HollowSpec}, {"profile", c.Profile, c.ProfileSpec},
		{"pitch", sayPitch(c.Pitch), sayPitch(c.PitchSpec)},
		{"left", sayLength(c.Height.Left), sayLength(c.HeightFirst.Left)}, {"right", sayLength(c.Height.Right), sayLength(c.HeightFirst.Right)},
	}
	for _, row := range rows {
		a.voice.say("  %-8s %-24s against %s", row[0], inventory.OrDash(row[1]), inventory.OrDash(row[2]))
	}
	a.voice.say("  days since tried %s, looked at %s, ground %s", sayDays(c.Tried), sayDays(c.Looked), sayDays(c.Ground))
	for _, cause := range line.First.Causes {
		a.voice.say("  first pair: %s", cause.What)
	}
	for _, set := range line.Sets {
		words := []string{string(set.Fit)}
		for _, cause := range set.Causes {
			words = append(words, cause.What)
		}
		a.voice.say("  set %s %s %s", set.Set, strings.Join(words, ", "), set.Place)
	}
}

func sayPitch(pitch *geometry.Millimetre) string {
	if pitch == nil {
		return ""
	}
	return inventory.SayPitch(*pitch)
}

func sayLength(length *geometry.Millimetre) string {
	if length == nil {
		return ""
	}
	return length.String()
}

func sayDays(days *int) string {
	if days == nil {
		return "never"
	}
	return fmt.Sprint(*days)
}

func (a *app) triedVerb() *cobra.Command {
	deed := deeds.NoteTry{}
	cmd := &cobra.Command{
		Use: "tried PLAYER|PAIR", Short: "a player tried the spare pair", GroupID: groupDay,
		Long: `Note that a player tried his spare pair: a few laps, enough to say whether he would
play on it. A whole practice or game on it is steeltally skated, and wants a grind after.`,
		Example: "  steeltally tried 17\n  steeltally tried P1-2-06 --declined --note \"too stiff\"",
		Args:    cobra.ExactArgs(1),
		RunE:    a.actsOn(func(d *desk.Desk, who string, args []string) (desk.Done, error) { return d.Tried(who, deed) }),
	}
	cmd.Flags().BoolVar(&deed.Declined, "declined", false, "he would rather not play on it")
	cmd.Flags().StringVar(&deed.Note, "note", "", "what he said")
	return cmd
}

func (a *app) skatedVerb() *cobra.Command {
	var practice bool
	cmd := &cobra.Command{
		Use: "skated PLAYER|PAIR", Short: "a game or practice on the spare pair", GroupID: groupDay,
		Long: `Note that a player played or practised on his spare pair: it is ready again once it was
ground. The first pair is skated every day and needs no entry.`,
		Example: "  steeltally skated 17\n  steeltally skated 17 --practice",
		Args:    cobra.ExactArgs(1),
		RunE:    a.actsOn(func(d *desk.Desk, who string, args []string) (desk.Done, error) { return d.Skated(who, !practice) }),
	}
	cmd.Flags().BoolVar(&practice, "practice", false, "a practice, not a game")
	return cmd
}

func (a *app) pairPitch() *cobra.Command {
	return &cobra.Command{
		Use: "pitch PAIR|PLAYER PITCH", Short: "how a pair's holders are pitched, heel minus toe",
		Example: "  steeltally pair pitch P1-2-06 1.5mm",
		Args:    cobra.ExactArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			pitch, err := geometry.ParseLength(args[1])
			if err != nil {
				return &usageError{err}
			}
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) { return d.Pitch(who, pitch) })
		},
	}
}

func (a *app) pairPromote() *cobra.Command {
	return &cobra.Command{
		Use: "promote PLAYER", Short: "the third pair becomes the first, the first the spare, the spare is kept",
		Example: "  steeltally pair promote 17",
		Args:    cobra.ExactArgs(1),
		RunE:    a.actsOn(func(d *desk.Desk, who string, args []string) (desk.Done, error) { return d.Promote(who) }),
	}
}
