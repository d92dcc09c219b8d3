package cli

import (
	"cmp"
	"strconv"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) sheetVerb() *cobra.Command {
	cmd := &cobra.Command{
		Use: "sheet", Short: "the label sheets and rolls that there are", GroupID: groupBook, Args: cobra.NoArgs,
		Long: `Label sheets and rolls are described by their geometry in mm, in plain files. A club's
own lie in the book's folder templates/sheets.`,
	}
	cmd.AddCommand(a.sheetList(), a.sheetCheck())
	return cmd
}

func (a *app) sheetList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "which sheets and rolls there are, and where part-used ones go on", Args: cobra.NoArgs,
		Example: "  steeltally sheet list",
		RunE: func(*cobra.Command, []string) error {
			lines, err := desk.Sheets(a.options())
			if err != nil {
				return err
			}
			return tabled(a.voice, answer{Sheets: lines}, lines, []string{"sheet", "is", "", ""}, func(s desk.SheetLine) []string {
				next := ""
				if s.Start > 1 {
					next = "goes on at label " + strconv.Itoa(s.Start)
				}
				return []string{s.Name, cmp.Or(s.Fault, s.About), next, ownOr(s.Own)}
			})
		},
	}
}

func (a *app) sheetCheck() *cobra.Command {
	return &cobra.Command{
		Use: "check FILE", Short: "say what is wrong with a sheet's file, line by line",
		Example: "  steeltally sheet check book/templates/sheets/our-roll.toml",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			source, name, err := a.read(args[0])
			if err != nil {
				return err
			}
			return a.sayCheck(desk.CheckSheet(name, source))
		},
	}
}
