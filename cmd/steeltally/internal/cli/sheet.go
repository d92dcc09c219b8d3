package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

// sheetFlags say on what paper a page comes out, and where.
func (a *app) sheetFlags(cmd *cobra.Command, sheet *desk.Sheet) {
	sheet.Stdout, sheet.Stands = a.world.Stdout, a.voice.stands
	fileFlag(cmd, &sheet.File, "pdf", "write it as a PDF to this file")
	cmd.Flags().StringVar(&sheet.Paper, "paper", "a4", "a4 or letter")
	completeWords(cmd, "paper", []string{"a4", "letter"})
}

// wrote tells what came out on paper.
func (a *app) wrote(written desk.Written, err error) error {
	if err != nil {
		return err
	}
	a.voice.notices(written.Notices)
	a.voice.say("%s in %s", desk.SayCount(written.Pages, "page"), sayFile(written.File))
	return a.voice.told(written)
}
