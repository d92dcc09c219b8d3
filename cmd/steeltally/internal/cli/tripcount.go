package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

// tripCount counts trunks, out or back.
func (a *app) tripCount(use, shortText string, back bool) *cobra.Command {
	var from string
	cmd := &cobra.Command{
		Use: use + " NAME [TRUNK…]", Short: shortText,
		Example: fmt.Sprintf("  steeltally trip %s \"Rime Point\" --from -", use),
		Args:    cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			scans, err := a.scansAndTyped(cmd, from, args[1:])
			if err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				done, missing, err := d.CountTrunks(args[0], scans, back)
				if err == nil && len(missing) == 0 {
					a.voice.say("all trunks are here")
				}
				return a.sayTaken(done, err, answer{NotHere: missing})
			})
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "a file of scans, one a line, or a picture; - is the standard input")
	return cmd
}
