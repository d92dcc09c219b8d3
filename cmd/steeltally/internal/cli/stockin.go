package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) stockinVerb() *cobra.Command {
	cmd := &cobra.Command{Use: "stockin", Short: "runners and holders that came into the club", GroupID: groupStock, Args: cobra.NoArgs}
	cmd.AddCommand(
		a.stockinPiece(inventory.KindRunner, `  steeltally stockin runner --model "Skua R" --size 280 --height 11.9mm --count 4`),
		a.stockinPiece(inventory.KindHolder, `  steeltally stockin holder --model "Skua H" --size 280 --side left`),
		a.stockinContainer(inventory.KindTrunk), a.stockinContainer(inventory.KindBin),
	)
	return cmd
}

func (a *app) stockinPiece(kind inventory.Kind, example string) *cobra.Command {
	stock := deeds.StockIn{Piece: kind}
	var thickness *geometry.Millimetre
	var place inventory.Place
	var blanks []string
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
			var err error
			if stock.Numbers, err = scannedNumbers(blanks); err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				numbers, done, err := d.StockIn(stock)
				if err != nil {
					return err
				}
				for _, n := range numbers {
					a.voice.say("%s  %s", n.Short(), n)
				}
				return a.voice.done(done, answer{Numbers: numbers})
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&stock.Model, "model", "", "the model's name")
	flags.IntVar(&stock.Size, "size", 0, "length in mm as the maker marks it")
	flags.Var(sideFlag(&stock.Side), "side", "its side, where it has one")
	flags.IntVar(&stock.Count, "count", 1, "how many alike")
	flags.StringSliceVar(&blanks, "number", nil, "of the blank tags that stick on them already")
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

// stockinContainer enters a trunk or a bin.
func (a *app) stockinContainer(kind inventory.Kind) *cobra.Command {
	container := deeds.NoteContainer{Container: kind}
	cmd := &cobra.Command{
		Use: kind.String() + " --name NAME", Short: fmt.Sprintf("enter a %s; it gets a number, and pieces are put in it by scanning that", kind),
		Example: fmt.Sprintf("  steeltally stockin %s --name \"%s 3\"", kind, kind), Args: cobra.NoArgs,
		RunE: a.uses(func(d *desk.Desk, _ []string) error {
			number, done, err := d.NoteContainer(container)
			return a.did(done, err, answer{Number: number})
		}),
	}
	cmd.Flags().StringVar(&container.Name, "name", "", "its name, as pieces' places say it")
	cmd.MarkFlagRequired("name")
	return cmd
}

// scannedNumbers reads numbers as they are scanned or typed.
func scannedNumbers(texts []string) ([]inventory.Number, error) {
	var numbers []inventory.Number
	for _, text := range texts {
		n, err := inventory.ScannedNumber(text)
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, n)
	}
	return numbers, nil
}

func (a *app) modelVerb() *cobra.Command {
	return parent(&cobra.Command{Use: "model", Short: "models of steel and holders, and what fits what", GroupID: groupStock, Args: cobra.NoArgs}, a.modelAdd())
}

func (a *app) modelAdd() *cobra.Command {
	model := deeds.DeclareModel{}
	var thickness *geometry.Millimetre
	cmd := &cobra.Command{
		Use: "add NAME", Short: "declare what a model is and what it fits",
		Long: `Declare what a model is and what it fits. A runner goes into a holder of the same
family, the same length and the same attachment; goalkeepers' steel only into
goalkeepers' holders. A model may stay undeclared: then the program can't check.`,
		Example: `  steeltally model add "Skua R" --piece runner --family Skua --attachment bolt --thickness 2.9mm`,
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			model.Name = args[0]
			if thickness != nil {
				model.Thickness = *thickness
			}
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.DeclareModel(model) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&model.Piece, "piece", "runner", "runner or holder")
	flags.StringVar(&model.Maker, "maker", "", "who makes it")
	flags.StringVar(&model.Family, "family", "", "the holder family that it belongs to")
	flags.StringVar(&model.Attachment, "attachment", "", "how the runner is held, such as bolt or clamp")
	flags.BoolVar(&model.Goalkeeper, "goalkeeper", false, "a goalkeeper's")
	flags.Var(lengthFlag(&thickness), "thickness", "thickness of the runner")
	flags.Var(heightFlag(&model.Height), "height", "height when new")
	return cmd
}
