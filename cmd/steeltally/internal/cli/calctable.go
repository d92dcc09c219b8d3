package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
)

// goalkeepersThickness is what the hollow table compares with unless told; common
// practice, no source: goalkeepers' steel is 3.5 to 4 mm thick.
const goalkeepersThickness geometry.Millimetre = 4

func (a *app) calcTable() *cobra.Command {
	cmd := &cobra.Command{Use: "table", Short: "tables for the wall of the shop", Args: cobra.NoArgs}
	cmd.AddCommand(a.calcTableHollow())
	return cmd
}

func (a *app) calcTableHollow() *cobra.Command {
	var thickness geometry.Millimetre
	page := desk.Sheet{}
	other := goalkeepersThickness
	cmd := &cobra.Command{
		Use: "hollow", Short: "depth and bite of every hollow that the shop dresses",
		Example: "  steeltally calc table hollow --thickness 2.9mm --other 4mm --pdf hollows.pdf",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			rows, err := geometry.HollowTable(thickness, other)
			if err != nil {
				return computed(err)
			}
			if page.File != "" {
				return a.wrote(desk.PrintHollowTable(rows, thickness, other, page))
			}
			return a.tellHollowTable(rows, thickness, other)
		},
	}
	needLength(cmd, &thickness, "thickness", "thickness of the runner")
	mayLength(cmd.Flags(), &other, "other", "thickness of other runners that shall bite alike; 4mm unless told")
	a.sheetFlags(cmd, &page)
	return cmd
}

// hollowTable is the table for programs.
type hollowTable struct {
	Thickness geometry.Millimetre  `json:"thickness_mm"`
	Other     geometry.Millimetre  `json:"other_mm"`
	Rows      []geometry.HollowRow `json:"rows"`
}

func (a *app) tellHollowTable(rows []geometry.HollowRow, thickness, other geometry.Millimetre) error {
	var cells [][]string
	for _, row := range rows {
		cells = append(cells, []string{row.Name, fine(row.Depth), row.EdgeAngle.String(), row.BiteAngle.String(), row.Shop})
	}
	a.voice.table([]string{"hollow", "depth", "edge angle", "bite angle", "on " + other.String()}, cells)
	a.voice.say("%s", desk.HollowTableMeaning)
	return a.voice.computed(hollowTable{thickness, other, rows}, desk.HollowTableMeaning)
}
