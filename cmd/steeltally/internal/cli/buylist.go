package cli

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) buylistVerb() *cobra.Command {
	var until string
	var lead int
	cmd := &cobra.Command{
		Use: "buylist --until DAY", Short: "which sets to buy until a day", GroupID: groupAsk,
		Long: `Say which sets to buy until a day, from the same forecasts as steeltally due: the sets
that will come off through the schedule, less what is ready and what lies on the shelf.
A range such as 6 (3 to 9) has the middle guess, and the span that holds in about eight
cases of ten: with 9 one is short in one case of ten.`,
		Example: "  steeltally buylist --until 2026-04-30 --lead 21",
		Args:    cobra.NoArgs,
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			list, err := d.BuyList(until, lead)
			if err != nil {
				return err
			}
			a.sayBuyList(list)
			return a.voice.told(buyObject(list))
		}),
	}
	cmd.Flags().StringVar(&until, "until", "", "the day until which it shall last")
	cmd.Flags().IntVar(&lead, "lead", 14, "days from an order until the steel is there")
	cmd.MarkFlagRequired("until")
	return cmd
}

func (a *app) sayBuyList(list desk.BuyList) {
	if list.Short != "" {
		a.voice.say("%s", list.Short)
	}
	var rows [][]string
	for _, n := range list.Needs {
		rows = append(rows, []string{
			n.Fit.String(), fmt.Sprint(n.Players), sayRange(n.Changes.Low, n.Changes.Middle, n.Changes.High),
			fmt.Sprint(n.Ready), fmt.Sprint(n.Shelf), sayRange(n.Buy.Low, n.Buy.Middle, n.Buy.High), sayOrderBy(n, list),
		})
	}
	a.sayUnworked(list.Unworked)
	if len(rows) == 0 {
		a.voice.say("nobody's steel can be forecast: put sets on, note change heights")
		return
	}
	a.voice.table([]string{"steel", "players", "sets come off", "ready", "shelf", "sets to buy", "order by"}, rows)
	if list.Guessed > 0 {
		a.voice.say("the steel of %s can't be forecast until measured: taken as half worn", desk.SayCount(list.Guessed, "player"))
	}
}

// sayOrderBy is the last day to order: before steel may be missing, by the lead time.
func sayOrderBy(n desk.Need, list desk.BuyList) string {
	if n.Short.IsZero() {
		return "–"
	}
	by := n.Short.AddDate(0, 0, -list.Lead)
	if by.Before(list.At) {
		return "now: short from " + sayDay(n.Short)
	}
	return sayDay(by)
}

// buyTold is what to buy, for programs.
type buyTold struct {
	At       string     `json:"at"`
	Guessed  int        `json:"guessed_players"`
	Needs    []needTold `json:"needs"`
	Unworked []any      `json:"not_counted"`
	Short    string     `json:"note"`
	Until    day        `json:"until"`
}

type needTold struct {
	desk.Need
	Model   string `json:"model"`
	Left    int    `json:"left_mm"`
	Right   int    `json:"right_mm"`
	Short   day    `json:"short_on"`
	OrderBy day    `json:"order_by"`
}

func buyObject(list desk.BuyList) buyTold {
	needs := []needTold{}
	for _, n := range list.Needs {
		need := needTold{n, n.Fit.Model, n.Fit.Left, n.Fit.Right, day{n.Short}, day{}}
		if !n.Short.IsZero() {
			need.OrderBy = day{n.Short.AddDate(0, 0, -list.Lead)}
		}
		needs = append(needs, need)
	}
	return buyTold{list.At.Format(time.RFC3339), list.Guessed, needs, unworked(list.Unworked), list.Short, day{list.Until}}
}
