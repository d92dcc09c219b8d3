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
		RunE: func(*cobra.Command, []string) error {
			return a.reading(func(d *desk.Desk) error {
				list, err := d.BuyList(until, lead)
				if err != nil {
					return err
				}
				if a.json {
					return a.voice.object(buyObject(list))
				}
				a.sayBuyList(list)
				return nil
			})
		},
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

func buyObject(list desk.BuyList) map[string]any {
	needs := []map[string]any{}
	for _, n := range list.Needs {
		object := map[string]any{
			"model": n.Fit.Model, "left_mm": n.Fit.Left, "right_mm": n.Fit.Right, "players": n.Players,
			"changes": []float64{n.Changes.Low, n.Changes.Middle, n.Changes.High}, "ready": n.Ready, "shelf": n.Shelf,
			"buy": []float64{n.Buy.Low, n.Buy.Middle, n.Buy.High}, "short_on": isoDay(n.Short), "order_by": nil,
		}
		if !n.Short.IsZero() {
			object["order_by"] = isoDay(n.Short.AddDate(0, 0, -list.Lead))
		}
		needs = append(needs, object)
	}
	return map[string]any{"until": isoDay(list.Until), "needs": needs, "not_counted": unworkedObjects(list.Unworked), "guessed_players": list.Guessed, "note": list.Short, "at": list.At.Format(time.RFC3339)}
}
