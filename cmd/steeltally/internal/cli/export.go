package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) exportVerb() *cobra.Command {
	var jsonl, csv string
	cmd := &cobra.Command{
		Use: "export --jsonl FILE | --csv DIR", Short: "write the whole journal to a file, or tables for a spreadsheet", GroupID: groupBook,
		Long: `Write the whole journal to a file, one entry a line: the same entries give the same
bytes, however the book came by them. Or write tables for a spreadsheet into a folder:
pieces, grinds, heights, damages, with units in their headings.`,
		Example: "  steeltally export --jsonl all.jsonl\n  steeltally export --csv tables",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return a.reading(func(d *desk.Desk) error {
				if csv == desk.StandardStream {
					return usage("--csv writes several tables: name a folder for them")
				}
				if csv != "" {
					return a.exportTables(d, csv)
				}
				events, err := d.Export(jsonl)
				if err != nil {
					return err
				}
				a.voice.say("%d entries in %s", events, sayFile(jsonl))
				return a.voice.told(answer{File: jsonl, Events: &events})
			})
		},
	}
	fileFlag(cmd, &jsonl, "jsonl", "the file to write")
	cmd.Flags().StringVar(&csv, "csv", "", "the folder to write tables into")
	cmd.MarkFlagsOneRequired("jsonl", "csv")
	cmd.MarkFlagsMutuallyExclusive("jsonl", "csv")
	return cmd
}

func (a *app) exportTables(d *desk.Desk, dir string) error {
	files, err := d.ExportTables(dir)
	if err != nil {
		return err
	}
	a.voice.say("%s", strings.Join(files, "\n"))
	return a.voice.told(answer{Files: files})
}
