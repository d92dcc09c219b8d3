package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

func (a *app) stockinVerb() *cobra.Command {
	cmd := &cobra.Command{Use: "stockin", Short: "runners and holders that came into the club", GroupID: groupStock, Args: cobra.NoArgs}
	cmd.AddCommand(
		a.stockinPiece(inventory.KindRunner, `  steeltally stockin runner --model "Skua R" --size 280 --height 11.9mm --count 4`),
		a.stockinPiece(inventory.KindHolder, `  steeltally stockin holder --model "Skua H" --size 280 --side left`),
	)
	return cmd
}

func (a *app) stockinPiece(kind inventory.Kind, example string) *cobra.Command {
	stock := inventory.StockIn{Piece: kind}
	var thickness *geometry.Millimetre
	var place inventory.Place
	cmd := &cobra.Command{
		Use: kind.String() + " --model NAME --size MM", Short: fmt.Sprintf("enter new %ss; each gets a number", kind),
		Example: example, Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if thickness != nil {
				stock.Thickness = *thickness
			}
			if place.Name != "" {
				stock.Place = &place
			}
			return a.withDesk(func(d *desk.Desk) error {
				numbers, done, err := d.StockIn(stock)
				if err != nil {
					return err
				}
				for _, n := range numbers {
					a.voice.say("%s  %s", n.Short(), n)
				}
				return a.voice.done(done, map[string]any{"numbers": numbers})
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&stock.Model, "model", "", "the model's name")
	flags.IntVar(&stock.Size, "size", 0, "length in mm as the maker marks it")
	flags.Var(sideFlag(&stock.Side), "side", "its side, where it has one")
	flags.IntVar(&stock.Count, "count", 1, "how many alike")
	flags.StringVar(&stock.Lot, "lot", "", "the maker's lot")
	flags.StringVar(&stock.Order, "order", "", "the purchase order")
	flags.StringVar(&place.Name, "place", "", "where it lies")
	if kind == inventory.KindRunner {
		flags.Var(lengthFlag(&thickness), "thickness", "thickness")
		flags.Var(heightFlag(&stock.Height), "height", "height when new")
	}
	cmd.MarkFlagRequired("model")
	cmd.MarkFlagRequired("size")
	return cmd
}
