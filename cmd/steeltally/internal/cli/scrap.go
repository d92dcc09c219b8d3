package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) scrapVerb() *cobra.Command {
	var reason, from string
	cmd := &cobra.Command{
		Use: "scrap PIECE…", Short: "pieces are thrown away; their history stays", GroupID: groupStock,
		Example: "  steeltally scrap R1-1-77 R1-2-74 --reason \"season's end\"\n  steeltally scrap --from bin3.txt",
		RunE: func(_ *cobra.Command, args []string) error {
			pieces, err := a.textsFrom(from, args)
			if err != nil {
				return err
			}
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.Scrap(pieces, reason) })
		},
	}
	cmd.Flags().StringVar(&reason, "reason", "", "why")
	cmd.Flags().StringVar(&from, "from", "", "a file of scans, one a line; - is the standard input")
	return cmd
}
