package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory/deeds"
)

func (a *app) modelVerb() *cobra.Command {
	cmd := &cobra.Command{Use: "model", Short: "models of steel and holders, and what fits what", GroupID: groupStock, Args: cobra.NoArgs}
	cmd.AddCommand(a.modelAdd())
	return cmd
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
