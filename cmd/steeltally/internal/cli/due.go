package cli

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

func (a *app) dueVerb() *cobra.Command {
	asked := desk.DueAsked{}
	var planned string
	cmd := &cobra.Command{
		Use: "due [PLAYER…]", Short: "whose steel is due, and when", GroupID: groupAsk,
		Long: `Say whose steel is due, and when: which set is on, how many passes and sessions are
left, on which day it will be due through the schedule, what to measure next, and which
set is ready. The most urgent come first; cracked steel before everything.

A range such as 60 (46 to 76) has the middle guess, and the span that holds in about
eight cases of ten. A player who was asked and would not change (steeltally refuse) is
left in peace until the day on which to ask again.`,
		Example: "  steeltally due\n  steeltally due 17\n  steeltally due --trip \"western swing\"\n" +
			"  steeltally due 17 --planned 15,10,10,15",
		RunE: func(_ *cobra.Command, args []string) error {
			var err error
			if asked.Planned, err = parsePlanned(planned); err != nil {
				return err
			}
			return a.reading(func(d *desk.Desk) error {
				for _, arg := range args {
					who, err := a.player(d, arg)
					if err != nil {
						return err
					}
					asked.Players = append(asked.Players, who)
				}
				list, err := d.Due(asked)
				if err != nil {
					return err
				}
				told, err := dueObject(d, list)
				if err != nil {
					return err
				}
				a.sayDue(list, len(args) > 0, d.Zone())
				return a.voice.told(told)
			})
		},
	}
	cmd.Flags().StringVar(&asked.Until, "until", "", "only steel that may be due by this day, such as a trip's last")
	cmd.Flags().StringVar(&asked.Trip, "trip", "", "only players on this trip whose steel may not last it")
	cmd.MarkFlagsMutuallyExclusive("until", "trip")
	cmd.Flags().StringVar(&planned, "planned", "", "passes on each day from today, in place of the schedule's: 15,10,10,15")
	return cmd
}

// parsePlanned reads "15,10,10,15".
func parsePlanned(text string) ([]float64, error) {
	if text == "" {
		return nil, nil
	}
	var passes []float64
	for _, part := range strings.Split(text, ",") {
		p, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || p < 0 {
			return nil, usage("%q is no number of passes; write them day by day, such as 15,10,10,15", part)
		}
		passes = append(passes, float64(p))
	}
	return passes, nil
}

func (a *app) refuseVerb() *cobra.Command {
	var pair, until, answer string
	cmd := &cobra.Command{
		Use: "refuse PLAYER --until DAY", Short: "a player was asked to change steel and would not", GroupID: groupDay,
		Long: `Note that a player was asked to change and would not, what he said, and when to ask
again. Until then he is not on the list of who is due. A crack is no matter of taste:
cracked steel comes off.`,
		Example: `  steeltally refuse 17 --until 2025-12-10 --answer "after the home game"`,
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.actOn(args[0], func(d *desk.Desk, who string) (desk.Done, error) {
				return d.RefuseChange(who, pair, until, answer)
			})
		},
	}
	cmd.Flags().StringVar(&until, "until", "", "the day on which to ask again")
	cmd.Flags().StringVar(&answer, "answer", "", "what he said")
	cmd.Flags().StringVar(&pair, "pair", "", "first, spare, third or a pair's number; first unless told")
	cmd.MarkFlagRequired("until")
	return cmd
}

// sayRange writes passes: "60 (46 to 76)".
func sayRange(low, middle, high float64) string {
	return fmt.Sprintf("%.0f (%.0f to %.0f)", middle, low, high)
}

// sayDoubts tells which heights do not fit the others.
func (a *app) sayDoubts(all []desk.Due, zone *time.Location) {
	var lines []string
	for _, due := range all {
		for _, side := range due.Sides {
			for _, doubt := range side.Doubts {
				what := "not used"
				if doubt.Again {
					what = "measure again"
				}
				lines = append(lines, fmt.Sprintf("%s %s, set %s %s: %.2f mm on %s does not fit: %s",
					sayCount(due.Sweater), due.Name, due.Letter, side.Side, float64(doubt.Height), doubt.When.SayDay(zone), what))
			}
			if len(side.Ends) > 0 && due.Standing == desk.ComingUp {
				lines = append(lines, fmt.Sprintf("%s %s, set %s %s: at the %s it is at or below the change height",
					sayCount(due.Sweater), due.Name, due.Letter, side.Side, strings.Join(side.Ends, " and the ")))
			}
		}
	}
	if len(lines) == 0 {
		return
	}
	a.voice.say("HEIGHTS TO LOOK AT")
	for _, line := range lines {
		a.voice.say("%s", line)
	}
	a.voice.say("")
}

// sayDueDetails tells what one forecast rests on.
func (a *app) sayDueDetails(due desk.Due, zone *time.Location) {
	a.voice.say("%s %s, set %s", sayCount(due.Sweater), due.Name, desk.SayDueSet(due))
	for _, side := range due.Sides {
		line := fmt.Sprintf("  %-6s", side.Side)
		if side.Last != nil {
			line += fmt.Sprintf("last height %.2f mm (%s), %s", float64(side.Last.Height), side.Reference, side.Last.When.SayDay(zone))
		} else {
			line += "no height yet"
		}
		if side.Loss != 0 {
			line += fmt.Sprintf("; about %.2f mm now, loses %.4f mm a pass, %.0f passes left", float64(*side.Now), side.Loss, side.Left)
		}
		a.voice.say("%s", line)
	}
	a.voice.say("  rests on %s of this set and %s", desk.SayCount(due.Heights, "height"), desk.SayCount(due.Earlier, "earlier runner"))
	if due.Sessions != nil {
		a.voice.say("  sessions until due: %s", sayRange(float64(due.Sessions.Low), float64(due.Sessions.Middle), float64(due.Sessions.High)))
	}
	if due.Measure.Since > 0 && due.Measure.InPasses >= 1 {
		a.voice.say("  %d passes since the last height: another one now would tell little", due.Measure.Since)
	}
	if due.CannotSay != "" {
		a.voice.say("  %s; %s", due.CannotSay, due.ToDo)
	}
	a.voice.say("")
}

// sayWorth tells how past ranges did.
func (a *app) sayWorth(list desk.DueList, zone *time.Location) {
	if !list.Until.IsZero() {
		a.voice.say("The schedule is known until %s.", sayDay(list.Until.In(zone)))
	}
	if list.Checked > 0 {
		a.voice.say("Of the last %d ranges, given at half of a runner's life, %d held; about %.0f should.",
			list.Checked, list.Held, 0.8*float64(list.Checked))
	}
}

// sayDue writes the list section by section, and what its ranges are worth.
func (a *app) sayDue(list desk.DueList, few bool, zone *time.Location) {
	others, lasting := soon(list, few)
	all := append(list.Players, others...)
	a.voice.notices(list.Notices)
	if said := list.Aside.String(); said != "" {
		a.voice.say("%s", said)
	}
	if len(all) == 0 && len(list.Unworked) == 0 {
		a.voice.say("no steel is on, or all of it will last")
		return
	}
	for _, section := range desk.DueSections(all, zone) {
		a.saySection(section)
	}
	a.sayUnworked(list.Unworked)
	if lasting > 0 {
		a.voice.say("%s on other pairs will last two weeks or more: --json has them\n", desk.SayCount(lasting, "set"))
	}
	a.sayDoubts(all, zone)
	if few {
		for _, due := range all {
			a.sayDueDetails(due, zone)
		}
	}
	a.sayWorth(list, zone)
}

// soonDays is how far ahead sets on other pairs than the first are shown.
const soonDays = 14

// soon picks the sets on other pairs that may be due before long, and counts the others.
func soon(list desk.DueList, all bool) (shown []desk.Due, lasting int) {
	limit := list.At.AddDate(0, 0, soonDays)
	for _, due := range list.Others {
		lasts := due.Standing == desk.ComingUp && due.Dates != nil && (due.Dates.Low.IsZero() || due.Dates.Low.After(limit))
		if lasts && !all {
			lasting++
			continue
		}
		shown = append(shown, due)
	}
	return shown, lasting
}

func (a *app) saySection(section desk.DueSection) {
	var rows [][]string
	for _, row := range section.Rows {
		rows = append(rows, append([]string{sayCount(row.Due.Sweater), shorten(row.Due.Name), desk.SayDueSet(row.Due)}, row.Cells...))
	}
	a.voice.say("%s", section.Heading)
	if section.Columns != nil {
		a.voice.table(append([]string{"no", "name", "set"}, section.Columns...), rows)
	} else {
		a.voice.rows(rows)
	}
	a.voice.say("")
}

// shorten keeps a long name from pushing the figures off the screen.
func shorten(name string) string {
	const most = 22
	if letters := []rune(name); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return name
}

func sayDay(day time.Time) string { return day.Format("Mon 2 Jan") }

// dueTold is what is due, for programs.
type dueTold struct {
	At      time.Time          `json:"at"`
	Checked int                `json:"forecasts_checked"`
	Held    int                `json:"forecasts_held"`
	Notices []inventory.Notice `json:"notices,omitempty"`
	Others  []any              `json:"others"`
	Players []any              `json:"players"` // dueSet, and unworked
	Until   day                `json:"schedule_until"`
	Aside   []desk.UnsafeAside `json:"unsafe_aside,omitempty"`
}

// dueSet is a set that is on.
type dueSet struct {
	desk.Due
	Dates   []day       `json:"dates"`
	Measure *dueMeasure `json:"measure,omitempty"`
	Passes  []float64   `json:"passes_left"`
	Ready   []readySet  `json:"ready_sets"`
	Refusal *dueRefusal `json:"refusal,omitempty"`
	Sides   []dueSide   `json:"sides"`
}

type dueMeasure struct {
	InPasses float64 `json:"in_passes"`
	On       day     `json:"on"`
}

type dueRefusal struct {
	Answer string `json:"answer"`
	Asked  day    `json:"asked_on"`
	Review day    `json:"review_on"`
}

// dueSide is one runner of a set; what nobody can say is left out.
type dueSide struct {
	CannotSay string               `json:"cannot_say,omitempty"`
	Ends      []string             `json:"ends_low"`
	Last      *geometry.Millimetre `json:"height_last_mm,omitempty"`
	Doubts    []heightInDoubt      `json:"heights_in_doubt"`
	Loss      float64              `json:"loss_mm_per_pass,omitempty"`
	Measured  day                  `json:"measured_on,omitzero"`
	Left      *float64             `json:"passes_left,omitempty"`
	Reference inventory.Reference  `json:"reference"`
	Runner    inventory.Number     `json:"runner"`
	desk.PieceLine
}

type heightInDoubt struct {
	Height geometry.Millimetre `json:"height_mm"`
	Again  bool                `json:"measure_again"`
	On     day                 `json:"on"`
}

type readySet struct {
	desk.PieceLine
	Ground bool   `json:"ground"`
	Set    string `json:"set"` // letter
}

// dueTeller tells what is due, with how each piece stands.
type dueTeller struct {
	zone   *time.Location
	pieces map[inventory.Number]desk.PieceLine
}

func dueObject(d *desk.Desk, list desk.DueList) (dueTold, error) {
	var numbers []inventory.Number
	for _, due := range slices.Concat(list.Players, list.Others) {
		for _, side := range due.Sides {
			numbers = append(numbers, side.Runner)
		}
		for _, set := range due.Ready {
			numbers = append(numbers, set.Set)
		}
	}
	pieces, err := d.Pieces(numbers)
	t := dueTeller{d.Zone(), pieces}
	players := append(t.sets(list.Players), unworked(list.Unworked)...)
	return dueTold{list.At, list.Checked, list.Held, list.Notices, t.sets(list.Others), players, day{list.Until}, list.Aside.Entries}, err
}

func (t dueTeller) sets(list []desk.Due) []any {
	sets := []any{}
	for _, due := range list {
		sets = append(sets, t.set(due))
	}
	return sets
}

func (t dueTeller) set(due desk.Due) dueSet {
	set := dueSet{Due: due, Ready: t.ready(due), Sides: t.sides(due)}
	if left := due.Passes; left != nil {
		set.Passes = []float64{tenth(left.Low), tenth(left.Middle), tenth(left.High)}
		set.Measure = &dueMeasure{tenth(due.Measure.InPasses), day{due.Measure.On}}
	}
	if dates := due.Dates; dates != nil {
		set.Dates = []day{{dates.Low}, {dates.Middle}, {dates.High}}
	}
	if no := due.Refusal; no != nil {
		set.Refusal = &dueRefusal{no.Value.Answer, dayOf(no.When, t.zone), dayOf(no.Value.Review, t.zone)}
	}
	return set
}

func (t dueTeller) sides(due desk.Due) []dueSide {
	sides := []dueSide{}
	for _, of := range due.Sides {
		side := dueSide{PieceLine: t.pieces[of.Runner], Runner: of.Runner, Reference: of.Reference, Ends: of.Ends, CannotSay: of.CannotSay}
		side.Height = of.Now
		if of.Last != nil {
			side.Last, side.Measured = &of.Last.Height, dayOf(of.Last.When, t.zone)
		}
		if of.Loss != 0 {
			left := tenth(of.Left)
			side.Loss, side.Left = of.Loss, &left
		}
		for _, doubt := range of.Doubts {
			side.Doubts = append(side.Doubts, heightInDoubt{doubt.Height, doubt.Again, dayOf(doubt.When, t.zone)})
		}
		sides = append(sides, side)
	}
	return sides
}

func (t dueTeller) ready(due desk.Due) []readySet {
	sets := []readySet{}
	for _, set := range due.Ready {
		sets = append(sets, readySet{t.pieces[set.Set], set.Ground, set.Letter})
	}
	return sets
}

// tenth rounds passes: more digits would pretend to know.
func tenth(passes float64) float64 { return math.Round(10*passes) / 10 }
