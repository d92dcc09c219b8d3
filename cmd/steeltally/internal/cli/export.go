package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) exportVerb() *cobra.Command {
	var jsonl string
	cmd := &cobra.Command{
		Use: "export --jsonl FILE", Short: "write the whole journal to a file", GroupID: groupBook,
		Long: `Write the whole journal to a file, one entry a line. The same entries give the same
bytes, however the book came by them.`,
		Example: "  steeltally export --jsonl all.jsonl",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return a.reading(func(d *desk.Desk) error {
				events, err := d.Export(jsonl)
				if err != nil {
					return err
				}
				if a.json {
					return a.voice.object(map[string]any{"file": jsonl, "events": events})
				}
				a.voice.say("%d entries in %s", events, jsonl)
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&jsonl, "jsonl", "", "the file to write")
	cmd.MarkFlagRequired("jsonl")
	return cmd
}
