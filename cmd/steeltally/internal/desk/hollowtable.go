package desk

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/labels/report"
)

// HollowTableMeaning is the line under a table of hollows.
const HollowTableMeaning = "Further up bites more and glides less; the last column bites alike on the other steel."

// PrintHollowTable puts the shop's table of hollows on paper.
func PrintHollowTable(rows []geometry.HollowRow, thickness, other geometry.Millimetre, sheet Sheet) (Written, error) {
	table := report.Table{
		Title: "Steel of " + thickness.String(), Notes: []string{HollowTableMeaning},
		Columns: []report.Column{
			{Title: "Hollow"}, {Title: "Depth", Right: true}, {Title: "Edge angle", Right: true},
			{Title: "Bite angle", Right: true}, {Title: "On " + other.String(), Right: true},
		},
	}
	for _, row := range rows {
		table.Rows = append(table.Rows, []string{
			row.Name, fmt.Sprintf("%.3f mm", float64(row.Depth)), row.EdgeAngle.String(), row.BiteAngle.String(), row.Shop,
		})
	}
	return sheet.print(report.Report{
		Title: "Hollows", Tables: []report.Table{table},
		Notes: []string{"Wear eye protection at the wheel; mind the wheel maker's limits."},
	})
}
